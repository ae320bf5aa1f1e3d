#pragma once

#include <string>
#include <string_view>

#include "report/record.hpp"

/// Words of the record for what the shop keeps.
namespace brakewright::report {

/// A stable word as people write it: "heat_check" is "heat check".
std::string spoken(std::string_view word);

/// A sentence of the core with the signs that paper has: "20 um" is "20 µm".
std::string typeset(std::string text);

/// "Ida Sandvik, student"; "somebody unknown" where the id is not among the people.
std::string person_name(const RecordInput& input, const shop::Uuid& person, bool with_role);
std::string person_name(const RecordInput& input, const std::optional<shop::Uuid>& person, bool with_role);

/// "rotor", "drum", "drum in the hat": what people call the part.
std::string name_of_kind(const shop::Part& part);

/// "Left" or "Right".
std::string side_of(const shop::Part& part);

/// "Cut", "Measure again": with a capital, as the sheet's largest word.
std::string word_of_action(shop::Action action);

/// "service information, sheet 4"
std::string source_of(const shop::Limit& limit);

}  // namespace brakewright::report
