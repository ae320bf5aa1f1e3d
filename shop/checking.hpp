#pragma once

#include <cmath>
#include <sstream>
#include <type_traits>

#include "core/input_error.hpp"
#include "core/length/length.hpp"
#include "shop/fields.hpp"
#include "shop/json.hpp"
#include "shop/texts.hpp"

/// How shop/json.hpp holds an entity to the rules of its field list; only for the files that instantiate it.
namespace brakewright::shop {
namespace checking {

inline std::string in_mm(double nm) {
  constexpr std::int64_t kShownNm = 1'000;
  return format(Length{static_cast<std::int64_t>(nm)}, Unit::mm, kShownNm);
}

inline std::string shown(double number) {
  std::ostringstream text;
  text.precision(12);
  text << number;
  return text.str();
}

class Checker {
 public:
  explicit Checker(std::string path) : path_(std::move(path)) {}

  template <class T>
  void operator()(const char* name, const T& value, const Rule& rule) const {
    visit(path_.empty() ? name : path_ + "." + name, value, rule);
  }

 private:
  static void in_range(const std::string& path, double value, const Rule& rule, std::string (*in_words)(double)) {
    if (std::isfinite(value) && value >= rule.low && value <= rule.high) return;
    std::string message = "must be ";
    if (std::isinf(rule.low) && std::isinf(rule.high)) {
      throw InputError("not_finite", path, "a finite number is needed here");
    }
    if (std::isinf(rule.high)) {
      message += in_words(rule.low) + " or more";
    } else {
      message += "from " + in_words(rule.low) + " to " + in_words(rule.high);
    }
    throw InputError("out_of_range", path, message);
  }

  template <class T>
  static void visit(const std::string& path, const T& value, const Rule& rule) {
    if constexpr (std::is_same_v<T, std::string>) {
      try {
        check_text(value, rule.text);
      } catch (const InputError& refusal) {
        throw refusal.within(path);
      }
    } else if constexpr (std::is_same_v<T, double> || std::is_same_v<T, std::int64_t>) {
      in_range(path, static_cast<double>(value), rule, shown);
    } else if constexpr (std::is_same_v<T, Length>) {
      in_range(path + "_nm", static_cast<double>(value.nm), rule, in_mm);
    } else if constexpr (std::is_same_v<T, TypedLength>) {
      visit(path + ".text", value.text, rules::typed);
    } else if constexpr (HasFields<const T>) {
      fields(value, Checker(path));
    }
  }

  template <class T>
  static void visit(const std::string& path, const std::optional<T>& value, const Rule& rule) {
    if (value) visit(path, *value, rule);
  }

  template <class T>
  static void visit(const std::string& path, const std::vector<T>& values, const Rule& rule) {
    constexpr bool lengths = std::is_same_v<T, Length>;
    for (std::size_t k = 0; k < values.size(); ++k) {
      if constexpr (lengths) {
        in_range(path + "_nm[" + std::to_string(k) + "]", static_cast<double>(values[k].nm), rule, in_mm);
      } else {
        visit(path + "[" + std::to_string(k) + "]", values[k], rule);
      }
    }
  }

  std::string path_;
};

}  // namespace checking

template <class E>
void check(const E& entity, const std::string& path) {
  fields(entity, checking::Checker(path));
}

}  // namespace brakewright::shop
