#include "core/pulsation/tyre.hpp"

#include <cctype>
#include <numbers>
#include <optional>

#include "core/input_error.hpp"

namespace brakewright {
namespace {

constexpr double kInch_mm = 25.4;

[[noreturn]] void refuse() {
  throw InputError("not_a_tyre", "", "a size as on the sidewall is accepted, such as 205/55 R16");
}

/// Walks through the text, letters taken as capitals.
class Walk {
 public:
  explicit Walk(const std::string& text) : text_(text) {}

  bool at_end() const { return at_ >= text_.size(); }
  char now() const { return at_end() ? '\0' : static_cast<char>(std::toupper(static_cast<unsigned char>(text_[at_]))); }
  void step() { ++at_; }
  void skip_blanks() {
    while (now() == ' ') step();
  }
  bool take(char letter) {
    if (now() != letter) return false;
    step();
    return true;
  }

  /// Up to three digits, and one decimal after a point.
  std::optional<double> number() {
    double value = 0;
    int digits = 0;
    for (; now() >= '0' && now() <= '9'; step(), ++digits) value = 10 * value + (now() - '0');
    if (digits == 0 || digits > 3) return std::nullopt;
    if (now() != '.') return value;
    step();
    if (!(now() >= '0' && now() <= '9')) return std::nullopt;
    value += (now() - '0') / 10.0;
    step();
    return value;
  }

 private:
  const std::string& text_;
  std::size_t at_ = 0;
};

void want(double value, double low, double high, const char* accepted) {
  if (!(value >= low && value <= high)) throw InputError("out_of_range", "", accepted);
}

}  // namespace

Tyre read_tyre(const std::string& text) {
  if (text.size() > 60) refuse();
  Walk walk(text);
  walk.skip_blanks();
  while (walk.now() >= 'A' && walk.now() <= 'Z') walk.step();  // P, LT, C and the like say who uses it
  walk.skip_blanks();
  const auto section = walk.number();
  walk.skip_blanks();
  if (!section || !walk.take('/')) refuse();
  walk.skip_blanks();
  const auto aspect = walk.number();
  walk.skip_blanks();
  walk.take('Z');
  if (!aspect || !walk.take('R')) refuse();
  walk.skip_blanks();
  const auto rim = walk.number();
  if (!rim || (!walk.at_end() && walk.now() != ' ' && walk.now() != 'C')) refuse();
  want(*section, 80, 500, "a section width from 80 to 500 mm");
  want(*aspect, 20, 100, "a height from 20 to 100 per cent");
  want(*rim, 8, 30, "a rim from 8 to 30 in");
  Tyre tyre{.section_mm = *section, .aspect_percent = *aspect, .rim_in = *rim};
  tyre.free_circumference_mm = std::numbers::pi * (*rim * kInch_mm + 2 * *section * *aspect / 100);
  tyre.rolling_low_mm = kRollsLow * tyre.free_circumference_mm;
  tyre.rolling_high_mm = kRollsHigh * tyre.free_circumference_mm;
  tyre.rolling_mm = (tyre.rolling_low_mm + tyre.rolling_high_mm) / 2;
  return tyre;
}

}  // namespace brakewright
