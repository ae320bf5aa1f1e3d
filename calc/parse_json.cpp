#include "calc/parse_json.hpp"

#include <nlohmann/json.hpp>
#include <string>
#include <utility>
#include <vector>

#include "core/input_error.hpp"

namespace brakewright::calc {
namespace {

using Exception = nlohmann::detail::exception;

constexpr int kNumberOverflow = 406;  // nlohmann's own id of that exception

/// Builds the document from the parser's events, and knows the path of the value that comes next.
class Builder : public nlohmann::json_sax<Json> {
 public:
  bool null() override { return put(Json(nullptr)); }
  bool boolean(bool value) override { return put(Json(value)); }
  bool number_integer(Json::number_integer_t value) override { return put(Json(value)); }
  bool number_unsigned(Json::number_unsigned_t value) override { return put(Json(value)); }
  bool number_float(Json::number_float_t value, const Json::string_t&) override { return put(Json(value)); }
  bool string(Json::string_t& value) override {
    if (value.find('\0') != std::string::npos) throw InputError("bad_character", path(), "U+0000 is not accepted");
    return put(Json(std::move(value)));
  }
  bool binary(Json::binary_t&) override { throw InputError("not_json", path(), "binary values are not JSON"); }

  bool start_object(std::size_t) override { return open(Json::object()); }
  bool end_object() override { return close(); }
  bool start_array(std::size_t) override { return open(Json::array()); }
  bool end_array() override { return close(); }

  bool key(Json::string_t& name) override {
    Json& object = *open_.back();
    name_ = std::move(name);
    if (name_.find('\0') != std::string::npos) throw InputError("bad_character", "", "U+0000 is not accepted");
    if (object.size() >= kMostFields) {
      throw InputError("too_many_fields", path(), "one object may have " + std::to_string(kMostFields) + " fields");
    }
    if (object.contains(name_)) throw InputError("duplicate_field", path(), "this field stands twice in one object");
    return true;
  }

  bool parse_error(std::size_t position, const std::string&, const Exception& error) override {
    if (error.id == kNumberOverflow) {
      throw InputError("not_finite", path(), "this number is larger than any that can be computed with");
    }
    throw InputError("not_json", path(), "this is not JSON; reading stopped at byte " + std::to_string(position));
  }

  Json take() { return std::move(root_); }

 private:
  bool put(Json value) {
    place(std::move(value));
    return true;
  }

  Json* place(Json value) {
    if (open_.empty()) {
      root_ = std::move(value);
      return &root_;
    }
    Json& outer = *open_.back();
    if (outer.is_array()) {
      outer.push_back(std::move(value));
      return &outer.back();
    }
    names_.back() = name_;
    return &outer.get_ref<Json::object_t&>().emplace_back(name_, std::move(value)).second;
  }

  bool open(Json empty) {
    if (open_.size() >= kDeepestJson) {
      throw InputError("too_deep", "", "lists and objects may be nested " + std::to_string(kDeepestJson) + " deep");
    }
    open_.push_back(place(std::move(empty)));
    names_.emplace_back();
    return true;
  }

  bool close() {
    open_.pop_back();
    names_.pop_back();
    return true;
  }

  std::string path() const {
    std::string text;
    for (std::size_t level = 0; level < open_.size(); ++level) {
      const bool innermost = level + 1 == open_.size();
      if (open_[level]->is_array()) {
        text += "[" + std::to_string(open_[level]->size() - (innermost ? 0 : 1)) + "]";
      } else {
        const std::string& name = innermost ? name_ : names_[level];
        if (!name.empty()) text += (text.empty() ? "" : ".") + name;
      }
    }
    return text;
  }

  Json root_;
  std::string name_;                ///< of the value that comes next
  std::vector<Json*> open_;         ///< objects and lists around it, outermost first
  std::vector<std::string> names_;  ///< for each of those that is an object: the name it was last given a value at
};

}  // namespace

Json parse_json(std::string_view text) {
  Builder builder;
  Json::sax_parse(text.begin(), text.end(), &builder);
  return builder.take();
}

}  // namespace brakewright::calc
