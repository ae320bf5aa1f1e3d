#include "shop/exchange/piece_headings.hpp"

#include <algorithm>
#include <tuple>

#include "core/input_error.hpp"
#include "shop/exchange/reading_headings.hpp"

namespace brakewright::shop {
namespace {

/// What people write for some of the headings.
constexpr auto kOtherNames = std::to_array<std::pair<std::string_view, std::string_view>>({
    {"piece", "name"},
    {"adapter", "name"},
    {"type", "kind"},
    {"units", "unit"},
    {"small_end", "small"},
    {"large_end", "large"},
    {"inner_ring", "ring_inner"},
    {"outer_ring", "ring_outer"},
    {"solid_length", "solid"},
    {"free_length", "free"},
    {"damped", "damping"},
    {"in_use", "active"},
    {"notes", "note"},
    {"piece_id", "id"},
});

std::size_t place_of(std::string_view name) {
  const auto other =
      std::find_if(kOtherNames.begin(), kOtherNames.end(), [&](const auto& one) { return one.first == name; });
  if (other != kOtherNames.end()) name = other->second;
  const auto found = std::find(kPieceHeadings.begin(), kPieceHeadings.end(), name);
  return static_cast<std::size_t>(found - kPieceHeadings.begin());
}

[[noreturn]] void refuse(const std::string& heading, const std::string& message) {
  throw InputError("no_heading", heading, message);
}

}  // namespace

PieceColumns::PieceColumns(const std::vector<std::string>& headings) : count_(headings.size()) {
  for (std::size_t i = 0; i < headings.size(); ++i) {
    const std::string word = plain_word(headings[i]);
    auto [stem, unit] = std::pair(word, std::string());
    if (place_of(word) == kPieceHeadings.size()) std::tie(stem, unit) = without_unit(word);
    const std::size_t place = place_of(stem);
    if (place == kPieceHeadings.size()) continue;
    if (columns_[place]) refuse(headings[i], "this heading stands twice");
    columns_[place] = PieceColumn{.index = i, .heading = headings[i], .unit = unit};
  }
  if (find("name") == nullptr) {
    refuse("name", "the first line must name the columns: name, and kind, bore, length and what else is to be told");
  }
}

const PieceColumn* PieceColumns::find(std::string_view name) const {
  const auto& column = columns_.at(place_of(name));
  return column ? &*column : nullptr;
}

}  // namespace brakewright::shop
