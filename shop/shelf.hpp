#pragma once

#include <optional>
#include <string>
#include <vector>

#include "shop/uuid.hpp"

namespace brakewright::shop {

/// A table of one of the shop's rooms, whatever stands in it.
class AnyShelf {
 public:
  virtual ~AnyShelf() = default;

  /// The table's name. An entry of the journal whose kind is "<word>.<anything>" tells one row of this shelf: its
  /// detail is that row's JSON. By this rule the journal rebuilds the shelf; an entry that tells no row begins
  /// otherwise.
  virtual const std::string& word() const = 0;

  /// Puts the row that an entry tells. @throws InputError when it tells none
  virtual void put_told(const std::string& detail_json) = 0;
};

/// A table of one of the shop's rooms: one row for each E, in the order in which they were first put. E has a field
/// list and JSON (shop/room_json.hpp).
///
/// Like the store it belongs to it is for one thread at a time: change it within Shop::journaled, read it within
/// Shop::undisturbed.
/// @throws StoreError  when the medium fails
template <class E>
class Shelf : public AnyShelf {
 public:
  /// Only within a transaction: inserts or, where the row exists already and this shelf's may change, replaces it in
  /// its place. On a shelf whose rows are final, a second put of the same row throws.
  virtual void put(const E&) = 0;

  virtual std::vector<E> all() = 0;
  virtual std::optional<E> find(const Uuid& id) = 0;  ///< by its column `id`
  virtual std::vector<E> where(const std::string& column, const Uuid& id) = 0;
};

}  // namespace brakewright::shop
