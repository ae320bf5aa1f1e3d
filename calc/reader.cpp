#include "calc/reader.hpp"

#include <algorithm>
#include <cmath>

#include "core/input_error.hpp"

namespace brakewright::calc {
namespace {

double finite_number(const Json& value, const std::string& path) {
  if (!value.is_number()) {
    throw InputError("wrong_type", path, "a number is needed here, not " + std::string(value.type_name()));
  }
  const double number = value.get<double>();
  if (!std::isfinite(number)) throw InputError("not_finite", path, "a finite number is needed here");
  return number;
}

std::string shown(double number) { return Json(number).dump(); }

std::string indexed(const std::string& path, std::size_t index) { return path + "[" + std::to_string(index) + "]"; }

std::vector<double> finite_numbers(const Json& list, const std::string& path) {
  if (!list.is_array()) throw InputError("wrong_type", path, "a list of numbers is needed here");
  std::vector<double> values;
  values.reserve(list.size());
  for (const Json& value : list) {
    if (!value.is_number() || !std::isfinite(value.get<double>())) {
      finite_number(value, indexed(path, values.size()));
    }
    values.push_back(value.get<double>());
  }
  return values;
}

std::string label_in(const Json& value, const std::string& path) {
  if (value.is_string()) return value.get<std::string>();
  if (value.is_number_integer()) return value.dump();
  throw InputError("wrong_type", path, "a name or a whole number is needed here");
}

std::string listed(std::initializer_list<std::string_view> words) {
  std::string text;
  for (const auto word : words) {
    if (!text.empty()) text += ", ";
    text += word;
  }
  return text;
}

std::string checked_word(const std::string& word, const std::string& path,
                         std::initializer_list<std::string_view> accepted) {
  if (std::find(accepted.begin(), accepted.end(), word) == accepted.end()) {
    throw InputError("out_of_range", path, "accepted here: " + listed(accepted));
  }
  return word;
}

}  // namespace

Reader::Reader(const Json& object, std::string path) : object_(object), path_(std::move(path)) {
  if (!object_.is_object()) {
    throw InputError("wrong_type", path_, "an object is needed here, not " + std::string(object_.type_name()));
  }
}

const Json* Reader::find(std::string_view name) {
  asked_.emplace_back(name);
  const auto found = object_.find(std::string(name));
  if (found == object_.end() || found->is_null()) return nullptr;
  return &*found;
}

const Json& Reader::require(std::string_view name) {
  const Json* value = find(name);
  if (value == nullptr) throw InputError("missing", path_of(name), "this field is needed");
  return *value;
}

bool Reader::has(std::string_view name) { return find(name) != nullptr; }

std::string Reader::path_of(std::string_view name) const {
  return path_.empty() ? std::string(name) : path_ + "." + std::string(name);
}

double Reader::number(std::string_view name) { return finite_number(require(name), path_of(name)); }

std::optional<double> Reader::optional_number(std::string_view name) {
  const Json* value = find(name);
  if (value == nullptr) return std::nullopt;
  return finite_number(*value, path_of(name));
}

double Reader::number_or(std::string_view name, double otherwise) { return optional_number(name).value_or(otherwise); }

double Reader::at_least(std::string_view name, double least) {
  const double value = number(name);
  if (value < least) throw InputError("out_of_range", path_of(name), "must be " + shown(least) + " or more");
  return value;
}

double Reader::above(std::string_view name, double bound) {
  const double value = number(name);
  if (!(value > bound)) throw InputError("out_of_range", path_of(name), "must be more than " + shown(bound));
  return value;
}

std::int64_t Reader::integer(std::string_view name, std::int64_t least, std::int64_t most) {
  const auto value = optional_integer(name, least, most);
  if (!value) throw InputError("missing", path_of(name), "this field is needed");
  return *value;
}

std::optional<std::int64_t> Reader::optional_integer(std::string_view name, std::int64_t least, std::int64_t most) {
  const auto number = optional_number(name);
  if (!number) return std::nullopt;
  if (*number != std::floor(*number)) {
    throw InputError("wrong_type", path_of(name), "a whole number is needed here");
  }
  if (*number < static_cast<double>(least) || *number > static_cast<double>(most)) {
    throw InputError("out_of_range", path_of(name),
                     "must be from " + std::to_string(least) + " to " + std::to_string(most));
  }
  return static_cast<std::int64_t>(*number);
}

bool Reader::boolean_or(std::string_view name, bool otherwise) {
  const Json* value = find(name);
  if (value == nullptr) return otherwise;
  if (!value->is_boolean()) throw InputError("wrong_type", path_of(name), "true or false is needed here");
  return value->get<bool>();
}

std::string Reader::text(std::string_view name) {
  const Json& value = require(name);
  if (!value.is_string()) throw InputError("wrong_type", path_of(name), "text is needed here");
  return value.get<std::string>();
}

std::optional<std::string> Reader::optional_text(std::string_view name) {
  if (!has(name)) return std::nullopt;
  return text(name);
}

std::string Reader::label(std::string_view name) { return label_in(require(name), path_of(name)); }

std::vector<std::string> Reader::labels(std::string_view name) {
  const Json& list = require(name);
  if (!list.is_array()) throw InputError("wrong_type", path_of(name), "a list of names is needed here");
  std::vector<std::string> found;
  found.reserve(list.size());
  for (const Json& value : list) found.push_back(label_in(value, indexed(path_of(name), found.size())));
  return found;
}

std::string Reader::one_of(std::string_view name, std::initializer_list<std::string_view> accepted) {
  return checked_word(text(name), path_of(name), accepted);
}

std::optional<std::string> Reader::optional_one_of(std::string_view name,
                                                   std::initializer_list<std::string_view> accepted) {
  if (!has(name)) return std::nullopt;
  return one_of(name, accepted);
}

std::vector<double> Reader::numbers(std::string_view name) { return finite_numbers(require(name), path_of(name)); }

std::vector<std::vector<double>> Reader::number_lists(std::string_view name) {
  const Json& lists = require(name);
  if (!lists.is_array()) throw InputError("wrong_type", path_of(name), "a list of lists of numbers is needed here");
  std::vector<std::vector<double>> values;
  values.reserve(lists.size());
  for (const Json& list : lists) values.push_back(finite_numbers(list, indexed(path_of(name), values.size())));
  return values;
}

std::optional<std::vector<double>> Reader::optional_numbers(std::string_view name) {
  if (!has(name)) return std::nullopt;
  return numbers(name);
}

Reader Reader::object(std::string_view name) { return Reader(require(name), path_of(name)); }

std::optional<Reader> Reader::optional_object(std::string_view name) {
  if (!has(name)) return std::nullopt;
  return object(name);
}

std::vector<Reader> Reader::objects(std::string_view name) {
  const Json& list = require(name);
  if (!list.is_array()) throw InputError("wrong_type", path_of(name), "a list of objects is needed here");
  std::vector<Reader> readers;
  readers.reserve(list.size());
  for (const Json& value : list) readers.emplace_back(value, indexed(path_of(name), readers.size()));
  return readers;
}

std::vector<Reader> Reader::optional_objects(std::string_view name) {
  if (!has(name)) return {};
  return objects(name);
}

void Reader::done() const {
  for (const auto& [name, value] : object_.items()) {
    if (std::find(asked_.begin(), asked_.end(), name) == asked_.end()) {
      std::string known;
      for (const auto& asked : asked_) known += (known.empty() ? "" : ", ") + asked;
      throw InputError("unknown_field", path_of(name), "there is no such field; known here: " + known);
    }
  }
}

}  // namespace brakewright::calc
