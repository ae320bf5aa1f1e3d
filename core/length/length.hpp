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
  Unit unit = Unit::mm;            ///< unit in which it was typed, or the default one for a bare number
  std::int64_t resolution_nm = 0;  ///< last typed decimal place; for a fraction its own step (1/16 in = 1587500)
  std::string text;                ///< as typed, without outer white space

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
/// Accepts `0.836`, `.836"`, `0.836 in`, `836 thou`, `13/16 in`, `1-1/8"`, `1 1/8 in`, `1⅛"`, `21.23 mm`, `21,23 mm`,
/// `21230 um`, `30.71 cm`; a sign in front; capitals and small letters alike; inch marks as `"`, `''` or their
/// typographic forms. One comma or one point is the decimal mark, so `22,354` is 22.354. What could be read in two
/// ways is refused, never guessed: both marks together, one of them twice, grouped thousands, `mil` (a thousandth of
/// an inch here, a millimetre there), exponents.
/// @param text          as typed, UTF-8
/// @param default_unit  unit of a bare number
/// @param plausible     only used to set `ask`, and only for a bare number; never changes the value
/// @throws InputError "not_a_length" (field empty) when it is none of these forms, its last typed place is finer than
///         a nanometre, or it lies beyond +-1 km
/// Degenerate case: what is no whole number of nanometres (1/128 in, 0.000001 in) goes to the nearest, halves away
/// from zero, and `resolution_nm` likewise.
/// Source: 1 in = 25.4 mm exactly (international yard and pound agreement, 1959).
ParsedLength parse_length(std::string_view text, Unit default_unit, std::optional<Plausible> plausible = {});

/// A length as a plain decimal in a unit, with the fewest decimals that still tell neighbours at a resolution apart:
/// a reading of 0.0001 in shows in mm with 3 decimals, one of 0.001 mm in inches with 5, and either comes back to
/// itself when converted back.
/// @param resolution_nm  >= 1; smaller counts as 1 nm
/// Rounded to nearest, halves away from zero; never "-0.000".
std::string format_number(Length length, Unit unit, std::int64_t resolution_nm);

/// The same with a space and the unit's name behind it: "21.234 mm".
std::string format(Length length, Unit unit, std::int64_t resolution_nm);

/// Whether two notes of one limit, mostly one in each unit, say the same.
struct Agreement {
  bool agree = false;
  Length difference;            ///< first less second
  std::int64_t allowed_nm = 0;  ///< largest difference that rounding the finer note can make: half its last place
};

/// Holds a limit noted twice ("1.215 in (30.86 mm)") against itself.
///
/// A limit is an exact number in the unit of its source. If the coarser note is the source, the finer one is its
/// conversion and lies within half of its own last place; that is the rule here. If the finer note is the source, a
/// coarser one rounded from it may lie further off and is then questioned: which of the two counts makes a difference
/// that the finer gauge can see.
/// Degenerate case: the same unit and resolution on both sides asks for equality within half a last place.
Agreement compare(const TypedLength& first, const TypedLength& second);

}  // namespace brakewright
