#include <sodium.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <map>
#include <set>

#include "core/length/length.hpp"
#include "shop/exchange/csv.hpp"
#include "shop/exchange/reading_headings.hpp"
#include "shop/exchange/readings_csv.hpp"
#include "shop/find.hpp"
#include "shop/places.hpp"
#include "shop/progress.hpp"
#include "shop/times.hpp"
#include "shop/words.hpp"

namespace brakewright::shop {
namespace {

constexpr std::size_t kMostReadings = 5'000;
constexpr double kAngleToleranceDeg = 0.5;

/// Why one cell was not taken; becomes an ImportLine.
InputError not_taken(const std::string& heading, const std::string& message) { return {"bad_cell", heading, message}; }

class Table {
 public:
  Table(const CsvTable& table, ReadingColumns columns) : columns_(std::move(columns)) {
    points_from_zero_ = has_zero(table, columns_.point);
    circles_from_zero_ = has_zero(table, columns_.circle);
  }

  const ReadingColumns& columns() const { return columns_; }

  std::string cell(const CsvRow& row, std::optional<std::size_t> column) const {
    return column && *column < row.cells.size() ? std::string(unguarded(row.cells[*column])) : std::string();
  }

  std::string heading(std::optional<std::size_t> column, const std::string& otherwise) const {
    return column ? columns_.headings[*column] : otherwise;
  }

  std::int64_t point(const CsvRow& row) const { return place(row, columns_.point, points_from_zero_, "point"); }

  std::int64_t circle(const CsvRow& row) const {
    return cell(row, columns_.circle).empty() ? 0 : place(row, columns_.circle, circles_from_zero_, "circle");
  }

  /// By how many studs the part was turned on its hub; nothing where the line does not say.
  std::optional<std::int64_t> studs_turned(const CsvRow& row) const {
    if (cell(row, columns_.studs_turned).empty()) return std::nullopt;
    return place(row, columns_.studs_turned, true, "studs_turned");
  }

 private:
  bool has_zero(const CsvTable& table, std::optional<std::size_t> column) const {
    return std::any_of(table.rows.begin() + 1, table.rows.end(),
                       [&](const CsvRow& row) { return cell(row, column) == "0"; });
  }

  std::int64_t place(const CsvRow& row, std::optional<std::size_t> column, bool from_zero,
                     const std::string& what) const {
    const std::string text = cell(row, column);
    std::int64_t number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc() || end != text.data() + text.size() || number < 0 || number > 1000) {
      throw not_taken(heading(column, what), std::string("a whole number is needed here, counted from ") +
                                                 (column == columns_.studs_turned ? "0" : "1"));
    }
    return from_zero ? number : number - 1;
  }

  ReadingColumns columns_;
  bool points_from_zero_ = false;
  bool circles_from_zero_ = false;
};

class Importer {
 public:
  Importer(Shop& shop, const JobFile& file, const ImportOptions& options, const Uuid& by, Table table)
      : shop_(shop),
        file_(file),
        options_(options),
        by_(by),
        table_(std::move(table)),
        instruments_(shop.instruments()) {
    for (const Reading& reading : file.readings) known_.insert(reading.id);
  }

  ImportReport run(const std::vector<CsvRow>& rows) {
    for (const CsvRow& row : rows) {
      try {
        take_row(row);
      } catch (const InputError& refusal) {
        refuse(row, refusal);
      }
    }
    return report_;
  }

 private:
  void take_row(const CsvRow& row) {
    const auto& columns = table_.columns();
    if (row.cells.size() > columns.headings.size()) {
      throw not_taken("", "there are more cells than headings; a decimal comma wants ; between the cells, or quotes");
    }
    const std::string state = table_.cell(row, columns.state);
    const std::string id = table_.cell(row, columns.id);
    if (!id.empty() && known_.contains(parsed_id(id))) {
      ++report_.known;
      return;
    }
    if (!state.empty() && state != "current")
      throw not_taken(columns.headings[*columns.state], "only current readings are taken");
    for (const ValueColumn& column : columns.values) {
      const std::string text = table_.cell(row, column.index);
      if (text.empty() && columns.values.size() > 1) continue;
      try {
        take_value(row, column, text, id);
      } catch (const InputError& refusal) {
        refuse(row, refusal);
      }
    }
  }

  void take_value(const CsvRow& row, const ValueColumn& column, const std::string& text, const std::string& id) {
    NewReading reading = described(row, column);
    write_value(reading, row, column, text);
    reading.id = id.empty() ? made_id(reading) : parsed_id(id);
    if (known_.contains(reading.id)) {
      ++report_.known;
      return;
    }
    try {
      options_.dry_run ? shop_.check_reading(file_.job.id, reading, by_)
                       : void(shop_.add_reading(file_.job.id, reading, by_));
    } catch (const DoubtfulReading& doubt) {
      throw not_taken(column.heading, std::string(doubt.what()) + " If it is right, put yes in a column confirmed.");
    } catch (const RuleError&) {
      throw;
    } catch (const InputError& refusal) {
      throw not_taken(refusal.field().empty() || refusal.field() == "text" ? column.heading : refusal.field(),
                      refusal.what());
    }
    known_.insert(reading.id);
    ++report_.added;
  }

  NewReading described(const CsvRow& row, const ValueColumn& column) const {
    const auto& columns = table_.columns();
    NewReading reading;
    reading.quantity = column.quantity ? *column.quantity : named_quantity(row);
    reading.stage = stage(row);
    reading.part_id = part(row).id;
    if (const Spread spread = spread_for(reading); spread.points > 1) {
      reading.point = columns.point ? table_.point(row) : point_at_angle(row, spread);
      reading.circle = circle(row, reading);
    }
    reading.instrument_id = instrument(row);
    const std::string confirmed = plain_word(table_.cell(row, columns.confirmed));
    reading.confirmed =
        confirmed == "yes" || confirmed == "y" || confirmed == "true" || confirmed == "1" || confirmed == "x";
    const std::string taken_at = table_.cell(row, columns.taken_at);
    if (!taken_at.empty()) reading.taken_at = parsed_time(taken_at);
    return reading;
  }

  std::int64_t circle(const CsvRow& row, const NewReading& reading) const {
    const bool size = reading.quantity == Quantity::thickness || reading.quantity == Quantity::diameter;
    if (size) return table_.circle(row);
    const bool turned = is_on_car(reading.stage) && reading.quantity == Quantity::runout_outboard;
    return turned ? table_.studs_turned(row).value_or(table_.circle(row)) : 0;
  }

  /// The unit behind the number comes first, then the line's, then the heading's, then the default.
  void write_value(NewReading& reading, const CsvRow& row, const ValueColumn& column, const std::string& text) const {
    if (text.empty()) throw not_taken(column.heading, "a value is needed here");
    std::string unit = plain_word(table_.cell(row, table_.columns().unit));
    if (unit.empty() && table_.cell(row, table_.columns().unit) == "\"") unit = "in";
    if (unit.empty()) unit = column.unit;
    if (unit == "inch" || unit == "inches") unit = "in";
    reading.text = text;
    reading.default_unit = unit.empty() ? options_.default_unit : unit == "in" ? Unit::in : Unit::mm;
    if (unit.empty() || unit == "mm" || unit == "in") return;
    const bool bare = text.find_first_not_of("0123456789.,+-/ ") == std::string::npos;
    if (bare) reading.text += " " + unit;
  }

  Quantity named_quantity(const CsvRow& row) const {
    const auto column = table_.columns().quantity;
    const auto quantity = quantity_from(table_.cell(row, column));
    if (quantity) return *quantity;
    std::string words;
    for (const auto word : Words<Quantity>::all) words += (words.empty() ? "" : ", ") + std::string(word);
    throw not_taken(table_.heading(column, "quantity"), "accepted here: " + words);
  }

  Stage stage(const CsvRow& row) const {
    const std::string text = table_.cell(row, table_.columns().stage);
    if (text.empty()) return Stage::before;
    const auto stage = stage_from(text);
    if (stage) return *stage;
    throw not_taken(table_.heading(table_.columns().stage, "stage"), "accepted here: before, after, on_car, refit");
  }

  const Part& part(const CsvRow& row) const {
    const auto column = table_.columns().side;
    const std::string text = table_.cell(row, column);
    if (text.empty() && file_.parts.size() == 1) return file_.parts[0];
    const auto side = side_from(text);
    if (!side) throw not_taken(table_.heading(column, "side"), "accepted here: left, right");
    const auto found =
        std::find_if(file_.parts.begin(), file_.parts.end(), [&](const Part& p) { return p.side == *side; });
    if (found == file_.parts.end())
      throw not_taken(table_.heading(column, "side"), "this job has no part on that side");
    return *found;
  }

  std::int64_t point_at_angle(const CsvRow& row, const Spread& spread) const {
    const auto column = table_.columns().angle;
    if (!column) throw not_taken("point_number", "a column point_number or angle_deg is needed for this quantity");
    const std::string heading = table_.heading(column, "angle_deg");
    std::string text = table_.cell(row, column);
    std::replace(text.begin(), text.end(), ',', '.');
    double angle_deg = 0;
    try {
      std::size_t used = 0;
      angle_deg = std::stod(text, &used);
      if (used != text.size() || !(std::abs(angle_deg) <= 3600)) throw std::out_of_range("angle");
    } catch (const std::exception&) {
      throw not_taken(heading, "an angle in degrees is needed here");
    }
    const double step_deg = spread.over_deg / static_cast<double>(spread.points);
    const double nearest = std::round(angle_deg / step_deg);
    if (std::abs(angle_deg - nearest * step_deg) > kAngleToleranceDeg) {
      throw not_taken(heading, "the plan of this part has no point within half a degree of it");
    }
    return ((static_cast<std::int64_t>(nearest) % spread.points) + spread.points) % spread.points;
  }

  Spread spread_for(const NewReading& reading) const {
    const Part* part = find(file_.parts, reading.part_id);
    const auto plan = plan_of(file_, reading.part_id, reading.stage);
    if (part == nullptr || !plan) return {};
    return spread_of(reading.quantity, *plan, part->kind);
  }

  std::optional<Uuid> instrument(const CsvRow& row) const {
    const auto column = table_.columns().instrument;
    const std::string text = table_.cell(row, column);
    if (text.empty()) return std::nullopt;
    const auto found = std::find_if(instruments_.begin(), instruments_.end(), [&](const Instrument& known) {
      return known.name == text || (!known.serial.empty() && known.serial == text) || to_text(known.id) == text;
    });
    if (found == instruments_.end())
      throw not_taken(table_.heading(column, "instrument"), "the shop has no instrument of this name or serial number");
    return found->id;
  }

  Uuid parsed_id(const std::string& text) const {
    try {
      return parse_uuid(text);
    } catch (const InputError& refusal) {
      throw not_taken(table_.heading(table_.columns().id, "id"), refusal.what());
    }
  }

  UtcTime parsed_time(const std::string& text) const {
    try {
      return parse_time(text);
    } catch (const InputError& refusal) {
      throw not_taken(table_.heading(table_.columns().taken_at, "taken_at"), refusal.what());
    }
  }

  /// A UUID of version 8 (RFC 9562, 5.8) made from what the reading says and how often the same came before it.
  Uuid made_id(const NewReading& reading) {
    std::string said = to_text(file_.job.id) + to_text(reading.part_id);
    for (const auto word : {word_of(reading.stage), word_of(reading.quantity), word_of(reading.default_unit)}) {
      said += '|';
      said += word;
    }
    said += '|' + std::to_string(reading.circle) + '|' + std::to_string(reading.point) + '|' + reading.text;
    if (reading.instrument_id) said += '|' + to_text(*reading.instrument_id);
    said += '|' + std::to_string(++said_before_[said]);
    Uuid id;
    crypto_generichash(id.bytes.data(), id.bytes.size(), reinterpret_cast<const unsigned char*>(said.data()),
                       said.size(), nullptr, 0);
    id.bytes[6] = static_cast<std::uint8_t>((id.bytes[6] & 0x0f) | 0x80);
    id.bytes[8] = static_cast<std::uint8_t>((id.bytes[8] & 0x3f) | 0x80);
    return id;
  }

  void refuse(const CsvRow& row, const InputError& refusal) {
    report_.refused.push_back({.line = row.line, .field = refusal.field(), .message = refusal.what()});
  }

  Shop& shop_;
  const JobFile& file_;
  const ImportOptions& options_;
  const Uuid& by_;
  Table table_;
  std::vector<Instrument> instruments_;
  std::set<Uuid> known_;
  std::map<std::string, std::int64_t> said_before_;
  ImportReport report_;
};

}  // namespace

ImportReport import_readings(Shop& shop, const Uuid& job_id, std::string_view csv, const ImportOptions& options,
                             const Uuid& by) {
  const CsvTable table = read_csv(csv);
  if (table.rows.empty())
    throw InputError("no_heading", "", "the first line must name the columns; this text has none");
  const JobFile file = shop.job_file(job_id);
  if (file.job.state == JobState::sealed) {
    throw RuleError("sealed", "job_id", "this job is sealed; readings can no longer be added, only amendments");
  }
  ReadingColumns columns = find_columns(table.rows[0].cells);
  const std::vector<CsvRow> rows(table.rows.begin() + 1, table.rows.end());
  if (rows.size() * columns.values.size() > kMostReadings) {
    throw InputError("too_many", "", "no more than 5,000 readings are taken at once");
  }
  return Importer(shop, file, options, by, Table(table, std::move(columns))).run(rows);
}

}  // namespace brakewright::shop
