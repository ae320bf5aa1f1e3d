#include "shop/journal/chain.hpp"

#include <sodium.h>

#include <array>

#include "core/input_error.hpp"

namespace brakewright::shop {
namespace {

constexpr std::size_t kSaltBytes = 16;

std::string bytes_of_hex(std::string_view hex) {
  std::string bytes(hex.size() / 2, '\0');
  std::size_t count = 0;
  const int failed = sodium_hex2bin(reinterpret_cast<unsigned char*>(bytes.data()), bytes.size(), hex.data(),
                                    hex.size(), nullptr, &count, nullptr);
  // Capitals would be another text of the same bytes.
  if (failed != 0 || 2 * count != hex.size() || hex.find_first_of("ABCDEF") != std::string_view::npos) {
    throw InputError("not_hex", "salt", "a salt is an even number of hex digits in lower case");
  }
  return bytes;
}

void add(std::string& text, std::string_view field) {
  text.append(std::to_string(field.size())).append(":").append(field).append(",");
}

}  // namespace

std::string hex_of(std::span<const std::uint8_t> bytes) {
  std::string text(2 * bytes.size() + 1, '\0');
  sodium_bin2hex(text.data(), text.size(), bytes.data(), bytes.size());
  text.pop_back();
  return text;
}

std::string sha256_of(std::string_view bytes) {
  std::array<unsigned char, crypto_hash_sha256_BYTES> hash{};
  crypto_hash_sha256(hash.data(), reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size());
  return hex_of(hash);
}

void fresh_bytes(std::span<std::uint8_t> bytes) { randombytes_buf(bytes.data(), bytes.size()); }

std::string fresh_salt() {
  std::array<std::uint8_t, kSaltBytes> salt{};
  fresh_bytes(salt);
  return hex_of(salt);
}

std::string detail_sha256_of(std::string_view salt, std::string_view detail_json) {
  return sha256_of(bytes_of_hex(salt).append(detail_json));
}

std::string entry_sha256_of(std::string_view previous_entry_sha256, const EntryText& entry) {
  std::string text = "brakewright journal 1\n";
  add(text, previous_entry_sha256);
  add(text, std::to_string(entry.seq));
  add(text, entry.id);
  add(text, entry.kind);
  add(text, entry.job_id ? "job" : "no job");
  add(text, entry.job_id.value_or(""));
  add(text, entry.subject_id);
  add(text, entry.by_person_id);
  add(text, entry.at);
  add(text, entry.detail_sha256);
  return sha256_of(text);
}

Change chained(Change change, std::string_view previous_entry_sha256) {
  const bool erased = change.detail_json.empty() && change.salt.empty() && !change.detail_sha256.empty();
  if (!erased) {
    if (change.salt.empty()) change.salt = fresh_salt();
    change.detail_sha256 = detail_sha256_of(change.salt, change.detail_json);
  }
  const std::string id = to_text(change.id);
  const std::string job_id = change.job_id ? to_text(*change.job_id) : "";
  const std::string subject_id = to_text(change.subject_id);
  const std::string by_person_id = to_text(change.by_person_id);
  const std::string at = to_text(change.at);
  change.entry_sha256 = entry_sha256_of(
      previous_entry_sha256, {.seq = change.seq,
                              .id = id,
                              .kind = change.kind,
                              .job_id = change.job_id ? std::optional<std::string_view>(job_id) : std::nullopt,
                              .subject_id = subject_id,
                              .by_person_id = by_person_id,
                              .at = at,
                              .detail_sha256 = change.detail_sha256});
  return change;
}

std::string signed_text(std::int64_t seq, std::string_view entry_sha256) {
  std::string text = "brakewright head 1\n";
  add(text, std::to_string(seq));
  add(text, entry_sha256);
  return text;
}

std::string veiled(std::string_view secret) { return "sha256:" + sha256_of(secret); }

}  // namespace brakewright::shop
