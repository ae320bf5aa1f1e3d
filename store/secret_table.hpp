#pragma once

#include <memory>

#include "shop/doors/secret.hpp"
#include "shop/shelf.hpp"
#include "shop/store.hpp"
#include "store/sqlite.hpp"

namespace brakewright::store {

/// The secrets that are kept in a store of this layer, which must outlive them.
/// @throws std::logic_error  for a store of another make
std::unique_ptr<shop::SecretStore> secrets_of(shop::Store& store);

/// The same table as the journal rebuilds it: with "sha256:" and the SHA-256 of each hash in the place of the hash,
/// which no entry tells.
std::unique_ptr<shop::AnyShelf> shelf_of_secrets(Database& database);

}  // namespace brakewright::store
