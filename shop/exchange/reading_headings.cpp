#include "shop/exchange/reading_headings.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include "core/input_error.hpp"
#include "shop/words.hpp"

namespace brakewright::shop {
namespace {

using Slot = std::optional<std::size_t> ReadingColumns::*;

constexpr auto kNames = std::to_array<std::pair<std::string_view, Slot>>({
    {"side", &ReadingColumns::side},
    {"part", &ReadingColumns::side},
    {"part_side", &ReadingColumns::side},
    {"rotor", &ReadingColumns::side},
    {"stage", &ReadingColumns::stage},
    {"quantity", &ReadingColumns::quantity},
    {"what", &ReadingColumns::quantity},
    {"unit", &ReadingColumns::unit},
    {"units", &ReadingColumns::unit},
    {"circle", &ReadingColumns::circle},
    {"circle_number", &ReadingColumns::circle},
    {"studs_turned", &ReadingColumns::studs_turned},
    {"turned", &ReadingColumns::studs_turned},
    {"depth_number", &ReadingColumns::circle},
    {"point", &ReadingColumns::point},
    {"point_number", &ReadingColumns::point},
    {"position", &ReadingColumns::point},
    {"angle", &ReadingColumns::angle},
    {"angle_deg", &ReadingColumns::angle},
    {"instrument", &ReadingColumns::instrument},
    {"gauge", &ReadingColumns::instrument},
    {"confirmed", &ReadingColumns::confirmed},
    {"taken_at", &ReadingColumns::taken_at},
    {"id", &ReadingColumns::id},
    {"reading_id", &ReadingColumns::id},
    {"state", &ReadingColumns::state},
});

bool names_value(std::string_view word) { return word == "value" || word == "reading" || word == "text"; }

[[noreturn]] void no_heading(const std::string& heading, const std::string& message) {
  throw InputError("no_heading", heading, message);
}

/// An export has the value as typed and in both units beside it: the typed one counts.
void keep_typed_value(ReadingColumns& columns) {
  const auto typed = std::find_if(columns.values.begin(), columns.values.end(),
                                  [](const ValueColumn& column) { return !column.quantity && column.unit.empty(); });
  if (typed == columns.values.end()) return;
  const ValueColumn kept = *typed;
  std::erase_if(columns.values,
                [&](const ValueColumn& column) { return !column.quantity && column.index != kept.index; });
}

}  // namespace

std::string plain_word(std::string_view text) {
  std::string word;
  bool gap = false;
  for (const char c : text) {
    const char lower = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    const bool kept = (lower >= 'a' && lower <= 'z') || (lower >= '0' && lower <= '9') || (c & 0x80) != 0;
    if (kept && gap && !word.empty()) word += '_';
    gap = !kept;
    if (kept) word += lower;
  }
  return word;
}

std::pair<std::string, std::string> without_unit(const std::string& word) {
  for (const std::string_view ending : {"mm", "in", "inch", "um", "thou"}) {
    if (word.size() > ending.size() + 1 && word.ends_with(ending) && word[word.size() - ending.size() - 1] == '_') {
      return {word.substr(0, word.size() - ending.size() - 1), std::string(ending == "inch" ? "in" : ending)};
    }
  }
  return {word, ""};
}

std::optional<Side> side_from(std::string_view text) {
  const std::string word = plain_word(text);
  if (word == "left" || word == "l" || word == "lh") return Side::left;
  if (word == "right" || word == "r" || word == "rh") return Side::right;
  return std::nullopt;
}

std::optional<Stage> stage_from(std::string_view text) {
  const std::string word = plain_word(text);
  if (word == "before" || word == "before_cut" || word == "before_the_cut") return Stage::before;
  if (word == "after" || word == "after_cut" || word == "after_the_cut") return Stage::after;
  if (word == "on_car" || word == "on_the_car") return Stage::on_car;
  if (word == "refit" || word == "refitted") return Stage::refit;
  return std::nullopt;
}

std::optional<Quantity> quantity_from(std::string_view text) {
  std::string word = plain_word(text);
  const auto gap = word.find('_');
  const bool face_first = word.starts_with("outboard_") || word.starts_with("inboard_");
  if (face_first) word = word.substr(gap + 1) + "_" + word.substr(0, gap);
  if (word.starts_with("ra_")) word = "roughness_" + word.substr(3);
  if (word == "drum_diameter" || word == "inside_diameter" || word == "inner_diameter") word = "diameter";
  if (word == "hat") word = "hat_height";
  const auto& all = Words<Quantity>::all;
  const auto found = std::find(all.begin(), all.end(), word);
  if (found == all.end()) return std::nullopt;
  return static_cast<Quantity>(found - all.begin());
}

ReadingColumns find_columns(const std::vector<std::string>& headings) {
  ReadingColumns columns;
  columns.headings = headings;
  for (std::size_t i = 0; i < headings.size(); ++i) {
    const std::string word = plain_word(headings[i]);
    const auto name =
        std::find_if(kNames.begin(), kNames.end(), [&](const auto& known) { return known.first == word; });
    if (name != kNames.end()) {
      auto& slot = columns.*(name->second);
      if (slot) no_heading(headings[i], "this heading stands twice");
      slot = i;
      continue;
    }
    const auto [stem, unit] = without_unit(word);
    const auto quantity = quantity_from(stem);
    if (quantity || names_value(stem)) {
      columns.values.push_back({.index = i, .heading = headings[i], .quantity = quantity, .unit = unit});
    }
  }
  keep_typed_value(columns);
  if (columns.values.empty()) {
    no_heading("value",
               "a column of values is needed: value, or a quantity such as thickness, diameter or runout_outboard");
  }
  for (std::size_t i = 0; i < columns.values.size(); ++i) {
    const ValueColumn& column = columns.values[i];
    if (!column.quantity && !columns.quantity) {
      no_heading("quantity", "a column quantity is needed beside value; it says thickness, runout_outboard, ...");
    }
    for (std::size_t k = 0; k < i; ++k) {
      if (columns.values[k].quantity == column.quantity) no_heading(column.heading, "there are two columns of this");
    }
  }
  return columns;
}

}  // namespace brakewright::shop
