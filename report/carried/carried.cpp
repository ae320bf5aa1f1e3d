#include "report/carried/carried.hpp"

#include <algorithm>
#include <charconv>
#include <optional>

#include "core/input_error.hpp"
#include "shop/times.hpp"
#include "shop/words.hpp"

namespace brakewright::report {
namespace {

constexpr std::string_view kForm = "Brakewright record 1";
constexpr std::string_view kBetween = "; ";
constexpr std::size_t kMostJobs = 100;
constexpr std::size_t kLongestKeywords = 64 * 1024;

/// Shortens a text by its next word.
std::string_view next_word(std::string_view& rest) {
  const std::size_t end = std::min(rest.find(' '), rest.size());
  const std::string_view word = rest.substr(0, end);
  rest.remove_prefix(std::min(end + 1, rest.size()));
  return word;
}

bool is_hash(std::string_view text) {
  return text.size() == 64 && text.find_first_not_of("0123456789abcdef") == std::string_view::npos;
}

std::optional<std::int64_t> count_in(std::string_view text) {
  std::int64_t value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  const bool plain = error == std::errc() && end == text.data() + text.size() && value > 0 && text.front() != '0';
  return plain ? std::optional(value) : std::nullopt;
}

bool read_job(std::string_view rest, Carried& carried) {
  CarriedJob job;
  const auto number = count_in(next_word(rest));
  if (!number || carried.jobs.size() == kMostJobs) return false;
  job.number = *number;
  if (rest == "sealed elsewhere") job.sealed = true;
  if (rest != "not sealed" && !job.sealed) {
    if (next_word(rest) != "sealed") return false;
    const auto entry = count_in(next_word(rest));
    job.sealed = true;
    job.seal_entry = entry.value_or(0);
    job.seal_entry_sha256 = next_word(rest);
    job.seal_sha256 = next_word(rest);
    job.public_key = rest;
    const bool whole = is_hash(job.seal_entry_sha256) && is_hash(job.seal_sha256);
    if (!entry || !whole || (!is_hash(job.public_key) && job.public_key != "unsigned")) return false;
    if (job.public_key == "unsigned") job.public_key.clear();
  }
  carried.jobs.push_back(std::move(job));
  return true;
}

bool read_item(std::string_view item, Carried& carried) {
  std::string_view rest = item;
  const std::string_view name = next_word(rest);
  if (name == "job") return read_job(rest, carried);
  if (name == "address") {
    carried.job_url = rest;
    return !rest.empty();
  }
  if (name == "journal") {
    const auto entry = count_in(next_word(rest));
    carried.newest_entry = entry.value_or(0);
    carried.newest_entry_sha256 = rest;
    return entry && is_hash(rest);
  }
  try {
    if (name == "paper") carried.paper = shop::parse_word<shop::Paper>(rest);
    if (name == "printed") carried.printed_at = shop::parse_time(rest);
  } catch (const InputError&) {
    return false;
  }
  return name == "paper" || name == "printed";
}

/// Only a text that is written as text_of writes it is one.
std::optional<Carried> parse(std::string_view text) {
  Carried carried;
  std::string_view rest = text.substr(kForm.size());
  while (rest.starts_with(kBetween)) {
    rest.remove_prefix(kBetween.size());
    const std::string_view item = rest.substr(0, rest.find(kBetween));
    if (!read_item(item, carried)) return {};
    rest.remove_prefix(item.size());
  }
  if (carried.jobs.empty() || text_of(carried) != text) return {};
  return carried;
}

std::optional<char> octal(std::string_view digits) {
  if (digits.empty() || digits[0] < '0' || digits[0] > '7') return {};
  int value = 0;
  for (std::size_t k = 0; k < 3 && k < digits.size() && digits[k] >= '0' && digits[k] <= '7'; ++k) {
    value = value * 8 + (digits[k] - '0');
  }
  return static_cast<char>(value);
}

/// A literal string (ISO 32000-1, 7.3.4.2) up to its closing bracket; `from` stands behind the opening one.
std::string literal(std::string_view from) {
  std::string text;
  int depth = 0;
  for (std::size_t k = 0; k < from.size() && text.size() < kLongestKeywords; ++k) {
    const char c = from[k];
    if (c == ')' && depth-- == 0) return text;
    if (c == '(') ++depth;
    if (c != '\\') {
      text += c;
      continue;
    }
    if (++k == from.size()) break;
    if (const auto byte = octal(from.substr(k))) {
      text += *byte;
      for (int more = 0; more < 2 && octal(from.substr(k + 1)); ++more) ++k;
    } else if (from[k] != '\n') {
      text += from[k];
    }
  }
  return text;
}

/// A hexadecimal string (7.3.4.3) of UTF-16BE with its mark, as far as it is ASCII: a record's keywords are.
std::string hexadecimal(std::string_view from) {
  std::string digits(from.substr(0, std::min(from.find('>'), kLongestKeywords)));
  std::erase_if(digits, [](char c) { return c == ' ' || c == '\n' || c == '\r' || c == '\t'; });
  std::string text;
  for (std::size_t k = 0; k + 1 < digits.size(); k += 2) {
    int byte = 0;
    if (std::from_chars(digits.data() + k, digits.data() + k + 2, byte, 16).ec != std::errc()) break;
    if (byte != 0 && byte < 0x80) text += static_cast<char>(byte);
  }
  return text;
}

std::string keywords_in(std::string_view pdf) {
  constexpr std::string_view kName = "/Keywords";
  const std::size_t at = pdf.rfind(kName);
  if (at == std::string_view::npos) return {};
  std::string_view rest = pdf.substr(at + kName.size());
  rest.remove_prefix(std::min(rest.find_first_not_of(" \r\n\t"), rest.size()));
  if (rest.starts_with('(')) return literal(rest.substr(1));
  return rest.starts_with('<') ? hexadecimal(rest.substr(1)) : std::string();
}

std::string job_text(const CarriedJob& job) {
  const std::string text = std::string(kBetween) + "job " + std::to_string(job.number);
  if (!job.sealed) return text + " not sealed";
  if (job.seal_entry == 0) return text + " sealed elsewhere";
  return text + " sealed " + std::to_string(job.seal_entry) + " " + job.seal_entry_sha256 + " " + job.seal_sha256 +
         " " + (job.public_key.empty() ? "unsigned" : job.public_key);
}

}  // namespace

bool traceable(const Carried& carried) {
  return std::any_of(carried.jobs.begin(), carried.jobs.end(),
                     [](const CarriedJob& job) { return job.seal_entry > 0; });
}

std::string text_of(const Carried& carried) {
  std::string text(kForm);
  const auto add = [&](std::string_view name, std::string_view value) {
    text.append(kBetween).append(name).append(" ").append(value);
  };
  if (traceable(carried)) {
    add("paper", shop::word_of(carried.paper));
    add("printed", shop::to_text(carried.printed_at));
    add("journal", std::to_string(carried.newest_entry) + " " + carried.newest_entry_sha256);
    if (!carried.job_url.empty()) add("address", carried.job_url);
  }
  for (const CarriedJob& job : carried.jobs) text += job_text(job);
  return text;
}

Carried carried_in(std::string_view pdf) {
  constexpr std::size_t kEnds = 1024;
  if (pdf.size() > kMostRecordBytes) {
    throw InputError("too_large", "", "a record is no larger than 4 MiB; this is another file");
  }
  if (pdf.substr(0, kEnds).find("%PDF-") == std::string_view::npos) {
    throw InputError("not_a_pdf", "", "this is no PDF; choose the file that was printed or sent as a record");
  }
  if (pdf.substr(pdf.size() - std::min(kEnds, pdf.size())).find("%%EOF") == std::string_view::npos) {
    throw InputError("damaged", "", "the end of this PDF is missing; fetch the file again");
  }
  const std::string keywords = keywords_in(pdf);
  if (!keywords.starts_with("Brakewright record ")) {
    throw InputError("no_record", "",
                     "this PDF does not say that it is a record of this program: it may be another document, one that "
                     "was printed before records said so, or a copy that another program saved again");
  }
  auto carried = keywords.starts_with(kForm) ? parse(keywords) : std::nullopt;
  if (!carried) {
    throw InputError("damaged", "",
                     "what this record says of its seal cannot be read: it was altered, or a newer version of the "
                     "program wrote it");
  }
  return std::move(*carried);
}

}  // namespace brakewright::report
