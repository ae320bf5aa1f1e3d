#include "report/content/names.hpp"

#include <algorithm>
#include <cctype>

#include "shop/words.hpp"

namespace brakewright::report {

std::string spoken(std::string_view word) {
  std::string text(word);
  std::replace(text.begin(), text.end(), '_', ' ');
  return text;
}

std::string typeset(std::string text) {
  for (std::size_t at = 0; (at = text.find(" um", at)) != std::string::npos; at += 3) {
    const bool ends = at + 3 == text.size() || std::isalnum(static_cast<unsigned char>(text[at + 3])) == 0;
    if (ends) text.replace(at, 3, " µm");
  }
  return text;
}

std::string person_name(const RecordInput& input, const shop::Uuid& person, bool with_role) {
  for (const shop::Person& known : input.people) {
    if (known.id != person) continue;
    return with_role ? known.name + ", " + spoken(shop::word_of(known.role)) : known.name;
  }
  return "somebody unknown";
}

std::string person_name(const RecordInput& input, const std::optional<shop::Uuid>& person, bool with_role) {
  return person ? person_name(input, *person, with_role) : std::string();
}

std::string name_of_kind(const shop::Part& part) {
  switch (part.kind.value_or(shop::PartKind::disc)) {
    case shop::PartKind::disc:
      return "rotor";
    case shop::PartKind::drum:
      return "drum";
    case shop::PartKind::drum_in_hat:
      break;
  }
  return "drum in the hat";
}

std::string side_of(const shop::Part& part) { return part.side == shop::Side::left ? "Left" : "Right"; }

std::string word_of_action(shop::Action action) {
  switch (action) {
    case shop::Action::leave:
      return "Leave";
    case shop::Action::cut:
      return "Cut";
    case shop::Action::replace:
      return "Replace";
    case shop::Action::measure_again:
      return "Measure again";
  }
  return {};
}

std::string source_of(const shop::Limit& limit) {
  const std::string source = spoken(shop::word_of(limit.source));
  return limit.source_note.empty() ? source : source + ", " + limit.source_note;
}

}  // namespace brakewright::report
