#include "core/length/length.hpp"

#include <algorithm>
#include <array>
#include <cstdlib>

#include "core/input_error.hpp"

namespace brakewright {
namespace {

constexpr std::int64_t kMostNm = 1'000'000'000'000;  // 1 km
constexpr std::size_t kMostDigits = 18;              // whole digits and decimals each, leading zeros aside
constexpr std::string_view kAccepted =
    "accepted are 0.836, .836\", 0.836 in, 836 thou, 13/16 in, 1-1/8\", 21.23 mm, 21,23 mm, 21230 um and 30.71 cm";

[[noreturn]] void refuse(const std::string& why) {
  throw InputError("not_a_length", "", why + "; " + std::string(kAccepted));
}

struct UnitWord {
  std::string_view word;  // small letters
  Unit unit;
  std::int64_t nm;  // of one such unit
};

constexpr std::int64_t kNmPerMm = 1'000'000;
constexpr std::int64_t kNmPerIn = 25'400'000;

constexpr auto kUnitWords = std::to_array<UnitWord>({
    {"mm", Unit::mm, kNmPerMm},
    {"millimetre", Unit::mm, kNmPerMm},
    {"millimetres", Unit::mm, kNmPerMm},
    {"millimeter", Unit::mm, kNmPerMm},
    {"millimeters", Unit::mm, kNmPerMm},
    {"cm", Unit::mm, 10 * kNmPerMm},
    {"um", Unit::mm, 1000},
    {"\xC2\xB5m", Unit::mm, 1000},  // micro sign
    {"\xCE\xBCm", Unit::mm, 1000},  // Greek mu
    {"micron", Unit::mm, 1000},
    {"microns", Unit::mm, 1000},
    {"in", Unit::in, kNmPerIn},
    {"in.", Unit::in, kNmPerIn},
    {"inch", Unit::in, kNmPerIn},
    {"inches", Unit::in, kNmPerIn},
    {"\"", Unit::in, kNmPerIn},
    {"''", Unit::in, kNmPerIn},
    {"\xE2\x80\x9C", Unit::in, kNmPerIn},              // left double quotation mark
    {"\xE2\x80\x9D", Unit::in, kNmPerIn},              // right double quotation mark
    {"\xE2\x80\xB3", Unit::in, kNmPerIn},              // double prime
    {"\xE2\x80\xB2\xE2\x80\xB2", Unit::in, kNmPerIn},  // two primes
    {"\xE2\x80\x99\xE2\x80\x99", Unit::in, kNmPerIn},  // two right single quotation marks
    {"thou", Unit::in, kNmPerIn / 1000},
});

struct VulgarFraction {
  std::string_view sign;
  std::int64_t numerator;
  std::int64_t denominator;
};

constexpr auto kVulgarFractions = std::to_array<VulgarFraction>({
    {"\xC2\xBC", 1, 4},
    {"\xC2\xBD", 1, 2},
    {"\xC2\xBE", 3, 4},
    {"\xE2\x85\x9B", 1, 8},
    {"\xE2\x85\x9C", 3, 8},
    {"\xE2\x85\x9D", 5, 8},
    {"\xE2\x85\x9E", 7, 8},
});

constexpr auto kSpaces = std::to_array<std::string_view>({
    " ", "\t", "\n", "\r",
    "\xC2\xA0",      // no-break space
    "\xE2\x80\x89",  // thin space
    "\xE2\x80\xAF",  // narrow no-break space
});

constexpr bool is_digit(char c) { return c >= '0' && c <= '9'; }

std::int64_t power_of_ten(std::size_t exponent) {
  std::int64_t power = 1;
  for (std::size_t i = 0; i < exponent; ++i) power *= 10;
  return power;
}

std::int64_t divide_to_nearest(std::int64_t numerator, std::int64_t denominator) {
  return (numerator + denominator / 2) / denominator;
}

/// A number as typed, unit not yet applied: whole + part/divisor, part < divisor unless it is a lone fraction.
struct Typed {
  bool negative = false;
  std::int64_t whole = 0;
  std::int64_t part = 0;
  std::int64_t divisor = 1;  // of the last typed place

  std::int64_t nm(std::int64_t unit_nm) const {
    const std::int64_t size = whole * unit_nm + divide_to_nearest(part * unit_nm, divisor);
    return negative ? -size : size;
  }
};

std::int64_t number_of(std::string_view digits) {
  std::int64_t number = 0;
  for (const char digit : digits) number = number * 10 + (digit - '0');
  return number;
}

/// Walks once over the text, from left to right.
class Scanner {
 public:
  explicit Scanner(std::string_view text) : rest_(text) {}

  bool take(std::string_view mark) {
    if (rest_.substr(0, mark.size()) != mark) return false;
    rest_.remove_prefix(mark.size());
    return true;
  }

  bool take_spaces() {
    const std::size_t before = rest_.size();
    while (std::any_of(kSpaces.begin(), kSpaces.end(), [this](std::string_view space) { return take(space); })) {
    }
    return rest_.size() != before;
  }

  std::string_view take_digits() {
    const auto end = std::find_if_not(rest_.begin(), rest_.end(), is_digit);
    const auto digits = rest_.substr(0, static_cast<std::size_t>(end - rest_.begin()));
    rest_.remove_prefix(digits.size());
    return digits;
  }

  const VulgarFraction* take_vulgar_fraction() {
    const auto found = std::find_if(kVulgarFractions.begin(), kVulgarFractions.end(),
                                    [this](const VulgarFraction& fraction) { return take(fraction.sign); });
    return found == kVulgarFractions.end() ? nullptr : &*found;
  }

  bool at_digit() const { return !rest_.empty() && is_digit(rest_.front()); }
  bool at_end() const { return rest_.empty(); }
  std::string_view rest() const { return rest_; }

 private:
  std::string_view rest_;
};

std::int64_t whole_number(std::string_view digits) {
  digits.remove_prefix(std::min(digits.find_first_not_of('0'), digits.size()));
  // 13 digits hold 1 km in any unit here and keep every product below within 64 bits.
  if (digits.size() > 13) refuse("this is longer than a kilometre");
  return number_of(digits);
}

void read_decimals(Scanner& scanner, Typed& typed, bool whole_typed) {
  const auto decimals = scanner.take_digits();
  if (decimals.empty() && !whole_typed) refuse("a decimal mark alone is no length");
  if (decimals.size() > kMostDigits) refuse("this has more decimals than a nanometre needs");
  typed.part = number_of(decimals);
  typed.divisor = power_of_ten(decimals.size());
  if (!scanner.at_end() && (scanner.rest().front() == '.' || scanner.rest().front() == ',')) {
    refuse("more than one point or comma can be read in two ways: write one decimal mark and no thousands marks");
  }
}

void read_denominator(Scanner& scanner, Typed& typed) {
  scanner.take_spaces();
  const auto digits = scanner.take_digits();
  if (digits.empty()) refuse("the fraction has no lower number");
  typed.divisor = whole_number(digits);
  if (typed.divisor < 2 || typed.divisor > 1000) refuse("the lower number of a fraction is from 2 to 1000");
  if (typed.part > 1'000'000) refuse("the upper number of a fraction is at most a million");
}

/// The fraction behind a whole number: `1-1/8`, `1 1/8`. Whether there is one shows only after its digits.
void read_fraction_of_mixed(Scanner& scanner, Typed& typed) {
  typed.part = whole_number(scanner.take_digits());
  scanner.take_spaces();
  if (!scanner.take("/")) refuse("two numbers side by side can be read in two ways: write one number, or 1-1/8");
  read_denominator(scanner, typed);
  if (typed.part >= typed.divisor) refuse("the fraction behind a whole number is less than one");
}

void read_after_whole(Scanner& scanner, Typed& typed) {
  if (const auto* vulgar = scanner.take_vulgar_fraction()) {
    typed.part = vulgar->numerator;
    typed.divisor = vulgar->denominator;
    return;
  }
  Scanner ahead = scanner;
  ahead.take_spaces();
  if (ahead.take("/")) {
    typed.part = typed.whole;
    typed.whole = 0;
    read_denominator(ahead, typed);
    scanner = ahead;
    return;
  }
  Scanner behind_hyphen = scanner;
  if (behind_hyphen.take("-")) ahead = behind_hyphen;
  if (ahead.at_digit()) {
    read_fraction_of_mixed(ahead, typed);
    scanner = ahead;
  } else if (const auto* vulgar = ahead.take_vulgar_fraction()) {
    typed.part = vulgar->numerator;
    typed.divisor = vulgar->denominator;
    scanner = ahead;
  }
}

Typed read_number(Scanner& scanner) {
  Typed typed;
  typed.negative = scanner.take("-") || scanner.take("\xE2\x88\x92");
  if (!typed.negative) scanner.take("+");
  const auto digits = scanner.take_digits();
  typed.whole = whole_number(digits);
  if (scanner.take(".") || scanner.take(",")) {
    read_decimals(scanner, typed, !digits.empty());
  } else if (!digits.empty()) {
    read_after_whole(scanner, typed);
  } else if (const auto* vulgar = scanner.take_vulgar_fraction()) {
    typed.part = vulgar->numerator;
    typed.divisor = vulgar->denominator;
  } else {
    refuse("this does not begin with a number");
  }
  return typed;
}

std::string lowered(std::string_view text) {
  std::string low(text);
  std::transform(low.begin(), low.end(), low.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  return low;
}

/// The unit behind the number, or null for a bare number.
const UnitWord* read_unit(Scanner& scanner) {
  scanner.take_spaces();
  if (scanner.at_end()) return nullptr;
  const std::string word = lowered(scanner.rest().substr(0, 20));
  if (word == "mil" || word == "mils") {
    refuse("\"mil\" can be read in two ways: write thou for a thousandth of an inch, or mm");
  }
  const auto found =
      std::find_if(kUnitWords.begin(), kUnitWords.end(), [&](const UnitWord& unit) { return unit.word == word; });
  if (found == kUnitWords.end()) refuse("what stands behind the number is no unit known here");
  return &*found;
}

constexpr std::int64_t nm_of(Unit unit) { return unit == Unit::mm ? kNmPerMm : kNmPerIn; }

void check_size(const Typed& typed, std::int64_t unit_nm) {
  if (typed.divisor > unit_nm) refuse("this has more decimals than a nanometre needs");
  if (typed.whole > kMostNm / unit_nm || std::abs(typed.nm(unit_nm)) > kMostNm) {
    refuse("this is longer than a kilometre");
  }
}

std::string_view trimmed(std::string_view text) {
  Scanner front(text);
  front.take_spaces();
  text = front.rest();
  bool more = true;
  while (more) {
    more = false;
    for (const auto space : kSpaces) {
      if (text.size() >= space.size() && text.substr(text.size() - space.size()) == space) {
        text.remove_suffix(space.size());
        more = true;
      }
    }
  }
  return text;
}

constexpr bool contains(const Plausible& range, std::int64_t nm) { return nm >= range.low.nm && nm <= range.high.nm; }

/// The other unit, when the number makes sense in it and not in the default one.
std::optional<Unit> unit_to_ask(const Typed& typed, Unit default_unit, const Plausible& plausible) {
  const Unit other = default_unit == Unit::mm ? Unit::in : Unit::mm;
  if (contains(plausible, typed.nm(nm_of(default_unit)))) return std::nullopt;
  if (typed.whole > kMostNm / nm_of(other) || typed.divisor > nm_of(other)) return std::nullopt;
  if (!contains(plausible, typed.nm(nm_of(other)))) return std::nullopt;
  return other;
}

}  // namespace

std::string_view name_of(Unit unit) { return unit == Unit::mm ? "mm" : "in"; }

ParsedLength parse_length(std::string_view text, Unit default_unit, std::optional<Plausible> plausible) {
  text = trimmed(text);
  if (text.empty()) refuse("nothing is typed here");
  Scanner scanner(text);
  const Typed typed = read_number(scanner);
  const UnitWord* word = read_unit(scanner);
  const std::int64_t unit_nm = word ? word->nm : nm_of(default_unit);
  check_size(typed, unit_nm);

  ParsedLength parsed;
  parsed.typed = {.value = {typed.nm(unit_nm)},
                  .unit = word ? word->unit : default_unit,
                  .resolution_nm = divide_to_nearest(unit_nm, typed.divisor),
                  .text = std::string(text)};
  if (plausible && !word) parsed.ask = unit_to_ask(typed, default_unit, *plausible);
  return parsed;
}

std::string format_number(Length length, Unit unit, std::int64_t resolution_nm) {
  const std::int64_t unit_nm = nm_of(unit);
  std::size_t decimals = 0;
  std::int64_t steps_per_unit = 1;
  while (unit_nm > std::max<std::int64_t>(resolution_nm, 1) * steps_per_unit) {
    steps_per_unit *= 10;
    ++decimals;
  }
  const std::int64_t size = std::abs(length.nm);
  std::int64_t whole = size / unit_nm;
  std::int64_t part = divide_to_nearest(size % unit_nm * steps_per_unit, unit_nm);
  if (part == steps_per_unit) {
    ++whole;
    part = 0;
  }
  std::string text = length.nm < 0 && (whole != 0 || part != 0) ? "-" : "";
  text += std::to_string(whole);
  if (decimals > 0) {
    const std::string digits = std::to_string(part);
    text += '.';
    text.append(decimals - digits.size(), '0');
    text += digits;
  }
  return text;
}

std::string format(Length length, Unit unit, std::int64_t resolution_nm) {
  return format_number(length, unit, resolution_nm) + " " + std::string(name_of(unit));
}

Agreement compare(const TypedLength& first, const TypedLength& second) {
  Agreement agreement;
  agreement.difference = first.value - second.value;
  agreement.allowed_nm = std::min(first.resolution_nm, second.resolution_nm) / 2;
  agreement.agree = std::abs(agreement.difference.nm) <= agreement.allowed_nm;
  return agreement;
}

}  // namespace brakewright
