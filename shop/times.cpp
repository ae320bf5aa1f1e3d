#include "shop/times.hpp"

#include <array>
#include <cstdio>
#include <optional>

#include "core/input_error.hpp"

namespace brakewright::shop {
namespace {

/// Reads fixed-width decimal fields from the front of a text.
class Digits {
 public:
  explicit Digits(std::string_view text) : rest_(text) {}

  std::optional<int> take(std::size_t count) {
    if (rest_.size() < count) return std::nullopt;
    int value = 0;
    for (const char c : rest_.substr(0, count)) {
      if (c < '0' || c > '9') return std::nullopt;
      value = value * 10 + (c - '0');
    }
    rest_.remove_prefix(count);
    return value;
  }

  bool take_sign(char sign) {
    if (rest_.empty() || rest_.front() != sign) return false;
    rest_.remove_prefix(1);
    return true;
  }

  std::size_t leading() const {
    std::size_t count = 0;
    while (count < rest_.size() && rest_[count] >= '0' && rest_[count] <= '9') ++count;
    return count;
  }

  bool empty() const { return rest_.empty(); }

 private:
  std::string_view rest_;
};

std::optional<Date> take_date(Digits& digits) {
  const auto year = digits.take(4);
  if (!year || !digits.take_sign('-')) return std::nullopt;
  const auto month = digits.take(2);
  if (!month || !digits.take_sign('-')) return std::nullopt;
  const auto day = digits.take(2);
  if (!day) return std::nullopt;
  const Date date{std::chrono::year(*year), std::chrono::month(static_cast<unsigned>(*month)),
                  std::chrono::day(static_cast<unsigned>(*day))};
  if (!date.ok()) return std::nullopt;
  return date;
}

std::optional<std::chrono::milliseconds> take_time_of_day(Digits& digits) {
  const auto hour = digits.take(2);
  if (!hour || *hour > 23 || !digits.take_sign(':')) return std::nullopt;
  const auto minute = digits.take(2);
  if (!minute || *minute > 59 || !digits.take_sign(':')) return std::nullopt;
  const auto second = digits.take(2);
  if (!second || *second > 59) return std::nullopt;
  int milliseconds = 0;
  if (digits.take_sign('.')) {
    const std::size_t places = digits.leading();
    if (places < 1 || places > 3) return std::nullopt;
    milliseconds = *digits.take(places);
    for (std::size_t k = places; k < 3; ++k) milliseconds *= 10;
  }
  return std::chrono::hours(*hour) + std::chrono::minutes(*minute) + std::chrono::seconds(*second) +
         std::chrono::milliseconds(milliseconds);
}

}  // namespace

std::string to_text(UtcTime time) {
  const auto day = std::chrono::floor<std::chrono::days>(time);
  const std::chrono::hh_mm_ss<std::chrono::milliseconds> clock(time - day);
  std::array<char, 32> text{};
  std::snprintf(text.data(), text.size(), "T%02d:%02d:%02d.%03dZ", static_cast<int>(clock.hours().count()),
                static_cast<int>(clock.minutes().count()), static_cast<int>(clock.seconds().count()),
                static_cast<int>(clock.subseconds().count()));
  return to_text(Date(day)) + text.data();
}

UtcTime parse_time(std::string_view text) {
  Digits digits(text);
  const auto date = take_date(digits);
  if (date && digits.take_sign('T')) {
    const auto clock = take_time_of_day(digits);
    if (clock && digits.take_sign('Z') && digits.empty()) {
      if (int(date->year()) >= 2000 && int(date->year()) <= 2099) return std::chrono::sys_days(*date) + *clock;
      throw InputError("not_a_time", "", "the year must be from 2000 to 2099");
    }
  }
  throw InputError("not_a_time", "", "a time in UTC is needed here, such as 2026-03-04T09:15:00.250Z");
}

std::string to_text(Date date) {
  std::array<char, 32> text{};
  std::snprintf(text.data(), text.size(), "%04d-%02u-%02u", int(date.year()), unsigned(date.month()),
                unsigned(date.day()));
  return text.data();
}

Date parse_date(std::string_view text) {
  Digits digits(text);
  const auto date = take_date(digits);
  if (!date || !digits.empty()) {
    throw InputError("not_a_date", "", "a day that exists is needed here, such as 2026-03-04");
  }
  if (int(date->year()) < 1950 || int(date->year()) > 2099) {
    throw InputError("not_a_date", "", "the year must be from 1950 to 2099");
  }
  return *date;
}

}  // namespace brakewright::shop
