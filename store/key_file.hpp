#pragma once

#include <filesystem>
#include <optional>

#include "shop/journal/signing.hpp"

namespace brakewright::store {

/// Where the key that signs a shop's journal is kept: "shop.sqlite.key" beside "shop.sqlite". It is in no backup: who
/// has only the file, or a copy of it, cannot sign for the shop.
std::filesystem::path key_file_of(const std::filesystem::path& file);

/// The shop's key; absent where there is none yet. @throws StoreError for a file that holds no key
std::optional<shop::SigningKey> key_in(const std::filesystem::path& key_file);

/// Puts a key on the disk, readable by its owner alone, and replaces none.
/// @throws StoreError  when one is there already
void keep_key(const std::filesystem::path& key_file, const shop::SigningKey& key);

}  // namespace brakewright::store
