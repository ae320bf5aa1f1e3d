#pragma once

#include <functional>
#include <optional>
#include <string>
#include <utility>

#include "shop/json.hpp"
#include "shop/shelf.hpp"

namespace brakewright::shop {

/// Writes entries of the journal within Shop::journaled, by the person and in the transaction of that call.
class Recorder {
 public:
  using Append = std::function<void(std::string kind, std::optional<Uuid> job_id, const Uuid& subject_id,
                                    std::string detail_json)>;
  explicit Recorder(Append append) : append_(std::move(append)) {}

  /// @param kind  such as "permit.given"; see AnyShelf::word for what its first word means
  /// @param detail_json  a JSON object
  void operator()(std::string kind, std::optional<Uuid> job_id, const Uuid& subject_id, std::string detail_json) const {
    append_(std::move(kind), job_id, subject_id, std::move(detail_json));
  }

  /// Puts a row and tells it in one: the entry's kind is "<word>.<what>".
  template <class E>
  void put(Shelf<E>& shelf, const E& entity, const std::string& what, std::optional<Uuid> job_id = {}) const {
    shelf.put(entity);
    append_(shelf.word() + "." + what, job_id, entity.id, json_text(entity));
  }

 private:
  Append append_;
};

}  // namespace brakewright::shop
