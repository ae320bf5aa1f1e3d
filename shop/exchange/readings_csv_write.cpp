#include <algorithm>
#include <cmath>
#include <map>

#include "core/length/length.hpp"
#include "shop/exchange/csv.hpp"
#include "shop/exchange/readings_csv.hpp"
#include "shop/progress.hpp"
#include "shop/states.hpp"
#include "shop/times.hpp"
#include "shop/words.hpp"

namespace brakewright::shop {
namespace {

const std::vector<std::string> kHeadings = {
    "job_number",    "side",        "stage",         "quantity",  "circle_number",    "studs_turned",
    "point_number",  "angle_deg",   "value",         "unit",      "value_mm",         "value_in",
    "resolution_nm", "state",       "instrument",    "confirmed", "confirmed_doubts", "by_person",
    "taken_at",      "received_at", "supersedes_id", "id"};

template <class T>
std::map<Uuid, std::string> names_of(const std::vector<T>& things) {
  std::map<Uuid, std::string> names;
  for (const T& thing : things) names.emplace(thing.id, thing.name);
  return names;
}

std::string name_in(const std::map<Uuid, std::string>& names, const std::optional<Uuid>& id) {
  if (!id) return "";
  const auto found = names.find(*id);
  return found == names.end() ? to_text(*id) : found->second;
}

std::string angle_text(double angle_deg) {
  // Thousandths of a degree, without zeros behind.
  std::string text = format_number({std::llround(angle_deg * 1e6)}, Unit::mm, 1000);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.ends_with('.')) text.pop_back();
  return text;
}

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const auto& word : words) text += (text.empty() ? "" : " ") + word;
  return text;
}

}  // namespace

std::string readings_csv(const JobFile& file, const std::vector<Person>& people,
                         const std::vector<Instrument>& instruments) {
  const auto person_names = names_of(people);
  const auto instrument_names = names_of(instruments);
  std::map<Uuid, Side> sides;
  for (const Part& part : file.parts) sides.emplace(part.id, part.side);
  const auto states = states_of(file.readings);

  std::string text = "\xef\xbb\xbf" + csv_line(kHeadings);
  for (std::size_t i = 0; i < file.readings.size(); ++i) {
    const Reading& reading = file.readings[i];
    const TypedLength& value = reading.value;
    const bool turned = is_on_car(reading.stage) && reading.quantity == Quantity::runout_outboard;
    const std::vector<std::string> cells = {std::to_string(file.job.number),
                                            std::string(word_of(sides.at(reading.part_id))),
                                            std::string(word_of(reading.stage)),
                                            std::string(word_of(reading.quantity)),
                                            turned ? "1" : std::to_string(reading.circle + 1),
                                            turned ? std::to_string(reading.circle) : "",
                                            std::to_string(reading.point + 1),
                                            angle_text(reading.angle_deg),
                                            value.text,
                                            std::string(name_of(value.unit)),
                                            format_number(value.value, Unit::mm, value.resolution_nm),
                                            format_number(value.value, Unit::in, value.resolution_nm),
                                            std::to_string(value.resolution_nm),
                                            std::string(word_of(states[i])),
                                            name_in(instrument_names, reading.instrument_id),
                                            reading.confirmed_doubts.empty() ? "" : "yes",
                                            joined(reading.confirmed_doubts),
                                            name_in(person_names, reading.by_person_id),
                                            to_text(reading.taken_at),
                                            to_text(reading.received_at),
                                            reading.supersedes_id ? to_text(*reading.supersedes_id) : "",
                                            to_text(reading.id)};
    text += csv_line(cells);
  }
  return text;
}

}  // namespace brakewright::shop
