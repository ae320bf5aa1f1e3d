#pragma once

#include <boost/random/mersenne_twister.hpp>
#include <boost/random/uniform_int_distribution.hpp>

#include "shop/entities.hpp"
#include "shop/fields.hpp"
#include "shop/uuid.hpp"
#include "shop/words.hpp"

/// Entities filled at random from a seed, each field within its rule: whatever a field list names gets a value.
namespace brakewright::shop::examples {

class Filler {
 public:
  explicit Filler(std::uint64_t seed) : draw_(seed) {}

  template <HasFields E>
  E make() {
    E entity{};
    fields(entity, *this);
    return entity;
  }

  template <class T>
  void operator()(const char*, T& member, const Rule& rule) {
    fill(member, rule);
  }

  std::int64_t integer(std::int64_t low, std::int64_t high) {
    return boost::random::uniform_int_distribution<std::int64_t>(low, high)(draw_);
  }

 private:
  void fill(Uuid& id, const Rule&) {
    for (auto& byte : id.bytes) byte = static_cast<std::uint8_t>(integer(0, 255));
  }
  void fill(std::string& text, const Rule& rule) {
    if (rule.json) {
      text = std::string(R"({"made":)").append(std::to_string(integer(0, 99))).append("}");
      return;
    }
    static constexpr const char* kPieces[] = {"a",   "blue", " ",  "\xC3\xA9", "\xE2\x85\x9B",
                                              "<b>", "\"",   "\\", "'",        ";"};
    std::string made(1, 'x');
    for (auto count = integer(0, 12); count > 0; --count) made += kPieces[integer(0, 9)];
    text = made;
  }
  void fill(UtcTime& time, const Rule&) {
    time = UtcTime(std::chrono::milliseconds(integer(1'600'000'000'000, 1'900'000'000'000)));
  }
  void fill(Date& date, const Rule&) { date = Date(std::chrono::sys_days(std::chrono::days(integer(10'000, 40'000)))); }
  void fill(bool& yes, const Rule&) { yes = integer(0, 1) == 1; }
  void fill(double& number, const Rule& rule) {
    const double low = std::isinf(rule.low) ? -1e6 : rule.low;
    const double high = std::isinf(rule.high) ? 1e6 : rule.high;
    number = low + (high - low) * static_cast<double>(integer(0, 1'000'003)) / 1'000'003.0;
  }
  void fill(std::int64_t& number, const Rule& rule) {
    number = integer(std::isinf(rule.low) ? -1'000'000 : static_cast<std::int64_t>(rule.low),
                     std::isinf(rule.high) ? 1'000'000 : static_cast<std::int64_t>(rule.high));
  }
  void fill(Length& length, const Rule& rule) { fill(length.nm, rule); }
  void fill(TypedLength& length, const Rule&) {
    const std::string digits = std::to_string(integer(0, 40)) + "." + std::to_string(integer(0, 9999));
    length = parse_length(digits, integer(0, 1) == 0 ? Unit::mm : Unit::in).typed;
  }
  template <class E>
  requires std::is_enum_v<E>
  void fill(E& value, const Rule&) {
    value = static_cast<E>(integer(0, static_cast<std::int64_t>(Words<E>::all.size()) - 1));
  }
  template <HasFields E>
  void fill(E& entity, const Rule&) {
    entity = make<E>();
  }
  template <class T>
  void fill(std::optional<T>& value, const Rule& rule) {
    value.reset();
    if (integer(0, 2) == 0) return;
    value.emplace();
    fill(*value, rule);
  }
  template <class T>
  void fill(std::vector<T>& values, const Rule& rule) {
    values.resize(static_cast<std::size_t>(integer(1, 3)));
    for (T& value : values) fill(value, rule);
  }

  boost::random::mt19937_64 draw_;
};

template <HasFields E>
E make(std::uint64_t seed) {
  return Filler(seed).make<E>();
}

}  // namespace brakewright::shop::examples
