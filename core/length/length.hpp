#pragma once

#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace brakewright {

/// A length that somebody measured or that a limit names: a whole number of nanometres.
///
/// Inch and millimetre are exact to each other on this scale (1 in = 25.4 mm, so 0.0001 in = 2540 nm and
/// 0.001 mm = 1000 nm): sums, comparisons and records never pick up a rounding.
struct Length {
  std::int64_t nm = 0;

  constexpr double mm() const { return static_cast<double>(nm) / 1e6; }
  constexpr double um() const { return static_cast<double>(nm) / 1e3; }
  constexpr double in() const { return static_cast<double>(nm) / 25.4e6; }

  friend constexpr auto operator<=>(Length, Length) = default;
  friend constexpr Length operator+(Length a, Length b) { return {a.nm + b.nm}; }
  friend constexpr Length operator-(Length a, Length b) { return {a.nm - b.nm}; }
  friend constexpr Length operator-(Length a) { return {-a.nm}; }
};

enum class Unit { mm, in };

/// "mm" or "in".
std::string_view name_of(Unit unit);

/// A length with the way it was typed, so that it can be shown back exactly so.
struct TypedLength {
  Length value;
  Unit unit = Unit::mm;             ///< unit in which it was typed, or the default one for a bare number
  std::int64_t resolution_nm = 0;   ///< last typed decimal place; for a fraction its own step (1/16 in = 1587500)
  std::string text;                 ///< as typed, without outer white space

  friend bool operator==(const TypedLength&, const TypedLength&) = default;
};

/// Range in which a length makes sense for what is being measured, both ends included.
struct Plausible {
  Length low;
  Length high;
};

struct ParsedLength {
  TypedLength typed;
  /// The unit to ask about, when the bare number lies outside the plausible range as it stands but inside it under
  /// this other unit. Nothing is converted unasked: `typed` is the literal reading.
  std::optional<Unit> ask;
};

/// Reads a length as people write it on the shop floor.
///
/// Accepts `0.836`, `.836"`, `0.836 in`, `836 thou`, `13/16 in`, `1-1/8"`, `1 1/8 in`, `21.23 mm`, `21,23 mm`,
/// `21230 um`; a sign in front; point and comma alike as the decimal mark. A text that could be read in two ways
/// ("1,234.5" and the like) is refused, never guessed.
/// @param text          as typed
/// @param default_unit  unit of a bare number
/// @param plausible     only used to set `ask`; never changes the value
/// @throws InputError "not_a_length" (field empty) when it is none of these forms, finer than a nanometre, or beyond
///         +-1 km
/// Source: 1 in = 25.4 mm exactly (international yard and pound agreement, 1959).
ParsedLength parse_length(std::string_view text, Unit default_unit, std::optional<Plausible> plausible = {});

}  // namespace brakewright
