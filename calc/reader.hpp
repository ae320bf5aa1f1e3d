#pragma once

#include <cstdint>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "calc/calc.hpp"

namespace brakewright::calc {

/// Reads one JSON object field by field and knows the path of each, so that a refusal names the very value.
///
/// Every getter throws InputError: "missing" when a required field is absent or null, "wrong_type" when it is of
/// another type, "not_finite" for a number that no double holds, "out_of_range" for one outside what is asked.
/// An optional getter takes absent and null alike.
/// Call `done()` last: it refuses fields that no getter asked for ("unknown_field"), so that a misspelt option is
/// never silently ignored.
class Reader {
 public:
  /// @throws InputError "wrong_type" when `object` is not a JSON object
  explicit Reader(const Json& object, std::string path = "");

  double number(std::string_view name);
  std::optional<double> optional_number(std::string_view name);
  double number_or(std::string_view name, double otherwise);

  /// A number at least `least`; `above(...)` wants it strictly greater.
  double at_least(std::string_view name, double least);
  double above(std::string_view name, double bound);

  std::int64_t integer(std::string_view name, std::int64_t least, std::int64_t most);
  std::optional<std::int64_t> optional_integer(std::string_view name, std::int64_t least, std::int64_t most);

  bool boolean_or(std::string_view name, bool otherwise);
  std::string text(std::string_view name);
  std::optional<std::string> optional_text(std::string_view name);

  /// A name: text, or a whole number taken as its digits, as tables number their parts.
  std::string label(std::string_view name);
  std::vector<std::string> labels(std::string_view name);

  /// A word out of `accepted`; anything else is "out_of_range" and the message lists them.
  std::string one_of(std::string_view name, std::initializer_list<std::string_view> accepted);
  std::optional<std::string> optional_one_of(std::string_view name, std::initializer_list<std::string_view> accepted);

  std::vector<double> numbers(std::string_view name);
  std::vector<std::vector<double>> number_lists(std::string_view name);
  std::optional<std::vector<double>> optional_numbers(std::string_view name);

  /// The object of that name, to be read (and finished with `done()`) on its own.
  Reader object(std::string_view name);
  std::optional<Reader> optional_object(std::string_view name);

  /// One reader for each object of the list of that name.
  std::vector<Reader> objects(std::string_view name);
  std::vector<Reader> optional_objects(std::string_view name);

  /// Whether the field is there and not null.
  bool has(std::string_view name);

  /// Path of a field of this object: "readings[3].value_mm".
  std::string path_of(std::string_view name) const;

  void done() const;

 private:
  const Json* find(std::string_view name);
  const Json& require(std::string_view name);

  const Json& object_;
  std::string path_;
  std::vector<std::string> asked_;
};

}  // namespace brakewright::calc
