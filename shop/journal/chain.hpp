#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "shop/entities.hpp"

/// The chain of the journal: each entry carries the SHA-256 (FIPS 180-4) of its own content and of the entry before,
/// so that none can be altered, put in, taken out or moved without every later hash showing it.
namespace brakewright::shop {

/// Two hex digits for each byte.
std::string hex_of(std::span<const std::uint8_t> bytes);

/// 64 hex digits.
std::string sha256_of(std::string_view bytes);

/// Fills with bytes that nobody can guess.
void fresh_bytes(std::span<std::uint8_t> bytes);

/// 32 hex digits of them.
std::string fresh_salt();

/// Of the salt's bytes followed by the detail. With a salt nobody can tell an erased detail by trying.
/// @throws InputError "not_hex" (field "salt")
std::string detail_sha256_of(std::string_view salt, std::string_view detail_json);

/// What an entry's hash is taken over, as it is stored.
struct EntryText {
  std::int64_t seq = 0;
  std::string_view id = {};
  std::string_view kind = {};
  std::optional<std::string_view> job_id = {};
  std::string_view subject_id = {};
  std::string_view by_person_id = {};
  std::string_view at = {};
  std::string_view detail_sha256 = {};
};

/// Of the previous entry's hash (empty before the first entry) and of all fields, each with its length before it.
std::string entry_sha256_of(std::string_view previous_entry_sha256, const EntryText& entry);

/// The entry with its hashes behind `previous_entry_sha256`; a salt is made where there is none. An erased one (no
/// detail, no salt) keeps its detail's hash.
Change chained(Change change, std::string_view previous_entry_sha256);

/// What the key signs: the number and the hash of the newest entry.
std::string signed_text(std::int64_t seq, std::string_view entry_sha256);

/// What an entry tells of a text that must not stand in the journal, such as the hash of a password: "sha256:" and the
/// SHA-256 of it.
std::string veiled(std::string_view secret);

}  // namespace brakewright::shop
