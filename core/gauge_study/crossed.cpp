#include "core/gauge_study/crossed.hpp"

#include <algorithm>
#include <limits>
#include <map>
#include <unordered_map>

#include "core/gauge_study/f_test.hpp"
#include "core/gauge_study/sums.hpp"
#include "core/input_error.hpp"

namespace brakewright::gauge_study {
namespace {

/// Numbers names in the order of their first appearance.
class Names {
 public:
  std::size_t number_of(const std::string& name) {
    const auto [found, is_new] = numbers_.try_emplace(name, names.size());
    if (is_new) names.push_back(name);
    return found->second;
  }
  std::vector<std::string> names;

 private:
  std::unordered_map<std::string, std::size_t> numbers_;
};

std::string times(std::size_t count) {
  if (count == 0) return "never";
  return count == 1 ? "once" : std::to_string(count) + " times";
}

/// Which rows stand in each cell.
using Cells = std::vector<std::vector<std::size_t>>;

/// The number of readings that most cells have; the larger of two that are equally common.
std::size_t usual_count(const Cells& cells) {
  std::map<std::size_t, std::size_t> counts;
  for (const auto& cell : cells) ++counts[cell.size()];
  counts.erase(0);
  const auto rarer = [](const auto& a, const auto& b) {
    return std::pair(a.second, a.first) < std::pair(b.second, b.first);
  };
  return std::max_element(counts.begin(), counts.end(), rarer)->first;
}

void check_balance(const Cells& cells, const Crossed& data, Factor factor) {
  const std::string by = factor == Factor::operators ? "" : "instrument ";
  for (std::size_t i = 0; i < cells.size(); ++i) {
    if (cells[i].size() == data.repeats) continue;
    const std::string what = "part " + data.parts[i / data.levels.size()] + " was read " + times(cells[i].size()) +
                             " by " + by + data.levels[i % data.levels.size()] + ", elsewhere " + times(data.repeats) +
                             "; every part must be read equally often by each";
    if (cells[i].size() < data.repeats) throw InputError("missing", "rows", what);
    throw InputError("too_many", "rows[" + std::to_string(cells[i][data.repeats]) + "].value", what);
  }
}

double mean_of_every(std::size_t step, std::span<const double> means, std::size_t first) {
  std::vector<double> picked;
  for (std::size_t i = first; i < means.size(); i += step) picked.push_back(means[i]);
  return mean_of(picked);
}

void put_means(Crossed& data) {
  const std::size_t levels = data.levels.size();
  for (std::size_t p = 0; p < data.parts.size(); ++p) {
    for (std::size_t l = 0; l < levels; ++l) data.cell_means.push_back(mean_of(data.cell(p, l)));
    data.part_means.push_back(mean_of(std::span(data.cell_means).subspan(p * levels, levels)));
  }
  for (std::size_t l = 0; l < levels; ++l) data.level_means.push_back(mean_of_every(levels, data.cell_means, l));
  data.grand_mean = mean_of(data.part_means);
}

double square(double x) { return x * x; }

double sum_of_squares(std::span<const double> means, double about) {
  Sum squares;
  for (const double mean : means) squares.add(square(mean - about));
  return squares.value();
}

Effect effect(double ss, std::size_t df) {
  return {.ss = ss, .df = static_cast<int>(df), .ms = ss / static_cast<double>(df)};
}

void test(Effect& effect, const Effect& against) {
  const FTest found = f_test(effect.ms, effect.df, against.ms, against.df);
  effect.f = found.f;
  effect.p = found.p;
}

double interaction_squares(const Crossed& data) {
  Sum squares;
  for (std::size_t p = 0; p < data.parts.size(); ++p) {
    for (std::size_t l = 0; l < data.levels.size(); ++l) {
      squares.add(square(data.cell_mean(p, l) - data.part_means[p] - data.level_means[l] + data.grand_mean));
    }
  }
  return squares.value();
}

double repeat_squares(const Crossed& data) {
  Sum squares;
  for (std::size_t i = 0; i < data.values.size(); ++i) {
    squares.add(square(data.values[i] - data.cell_means[i / data.repeats]));
  }
  return squares.value();
}

/// The table without its tests; the interaction may have no degrees of freedom and is left out then.
Table squares_of(const Crossed& data) {
  const std::size_t parts = data.parts.size(), levels = data.levels.size(), repeats = data.repeats;
  const auto count = static_cast<double>(data.values.size());
  // What rounding of the given decimals alone may leave is nothing.
  const double nothing = count * square(data.resolution);
  const auto kept = [&](double ss) { return ss > nothing ? ss : 0.0; };
  Table table;
  table.part =
      effect(kept(static_cast<double>(levels * repeats) * sum_of_squares(data.part_means, data.grand_mean)), parts - 1);
  if (levels > 1) {
    table.operators = effect(
        kept(static_cast<double>(parts * repeats) * sum_of_squares(data.level_means, data.grand_mean)), levels - 1);
    table.interaction =
        effect(kept(static_cast<double>(repeats) * interaction_squares(data)), (parts - 1) * (levels - 1));
  }
  if (repeats > 1) table.repeatability = effect(kept(repeat_squares(data)), parts * levels * (repeats - 1));
  table.ss_total =
      table.part.ss + (table.operators ? table.operators->ss + table.interaction->ss : 0.0) + table.repeatability.ss;
  table.df_total = static_cast<int>(parts * levels * repeats - 1);
  return table;
}

double at_least_0(double variance) { return std::max(0.0, variance); }

Components components_of(const Table& table, const Crossed& data) {
  const auto parts = static_cast<double>(data.parts.size()), levels = static_cast<double>(data.levels.size()),
             repeats = static_cast<double>(data.repeats);
  const double error = table.repeatability.ms;
  const double base = table.interaction ? table.interaction->ms : error;
  Components found{.repeatability = error};
  found.part_unclipped = (table.part.ms - base) / (levels * repeats);
  if (table.operators) found.operators_unclipped = (table.operators->ms - base) / (parts * repeats);
  if (table.interaction) found.interaction_unclipped = (base - error) / repeats;
  found.part = at_least_0(found.part_unclipped);
  if (found.operators_unclipped) found.operators = at_least_0(*found.operators_unclipped);
  if (found.interaction_unclipped) found.interaction = at_least_0(*found.interaction_unclipped);
  if (found.operators) found.reproducibility = *found.operators + found.interaction.value_or(0.0);
  found.grr = error + found.reproducibility.value_or(0.0);
  found.total = found.grr + found.part;
  return found;
}

void scale_up(Effect& effect, double factor) {
  effect.ss *= factor;
  effect.ms *= factor;
}

void scale_up(std::optional<double>& variance, double factor) {
  if (variance) *variance *= factor;
}

}  // namespace

const std::string& level_of(const Row& row, Factor factor) {
  return factor == Factor::operators ? row.operator_name : row.instrument.value();
}

Crossed arrange(std::span<const Row> rows, Factor factor) {
  Names parts, levels;
  std::vector<std::pair<std::size_t, std::size_t>> places;
  double largest = 0, largest_value = 0;
  Crossed data{.origin = rows.front().value};
  for (const Row& row : rows) {
    places.emplace_back(parts.number_of(row.part), levels.number_of(level_of(row, factor)));
    largest = std::max(largest, std::abs(row.value - data.origin));
    largest_value = std::max(largest_value, std::abs(row.value));
  }
  if (!std::isfinite(largest)) throw InputError("out_of_range", "rows", "the values lie too far apart");
  data.parts = std::move(parts.names);
  data.levels = std::move(levels.names);
  data.scale = power_of_two_for(largest);
  data.resolution = largest_value / data.scale * std::numeric_limits<double>::epsilon();
  Cells cells(data.parts.size() * data.levels.size());
  for (std::size_t i = 0; i < rows.size(); ++i) {
    cells[places[i].first * data.levels.size() + places[i].second].push_back(i);
  }
  data.repeats = usual_count(cells);
  check_balance(cells, data, factor);
  for (const auto& cell : cells) {
    for (const std::size_t i : cell) data.values.push_back((rows[i].value - data.origin) / data.scale);
  }
  put_means(data);
  return data;
}

Model full_model(const Crossed& data) {
  Model model{.table = squares_of(data)};
  Table& table = model.table;
  const Effect& base = table.interaction ? *table.interaction : table.repeatability;
  test(table.part, base);
  if (table.interaction) {
    test(*table.operators, base);
    test(*table.interaction, table.repeatability);
  }
  model.components = components_of(table, data);
  return model;
}

Model pooled_model(const Crossed& data) {
  Model model{.table = squares_of(data)};
  Table& table = model.table;
  const auto df = static_cast<std::size_t>(table.repeatability.df + table.interaction->df);
  table.repeatability = effect(table.repeatability.ss + table.interaction->ss, df);
  table.interaction.reset();
  test(table.part, table.repeatability);
  test(*table.operators, table.repeatability);
  model.components = components_of(table, data);
  if (data.repeats > 1) model.components.interaction = 0.0;
  return model;
}

Model unscaled(Model model, double scale) {
  const double factor = scale * scale;
  Table& table = model.table;
  scale_up(table.part, factor);
  if (table.operators) scale_up(*table.operators, factor);
  if (table.interaction) scale_up(*table.interaction, factor);
  scale_up(table.repeatability, factor);
  table.ss_total *= factor;
  Components& found = model.components;
  for (double* variance : {&found.repeatability, &found.grr, &found.part, &found.total, &found.part_unclipped}) {
    *variance *= factor;
  }
  for (auto* variance : {&found.operators, &found.interaction, &found.reproducibility, &found.operators_unclipped,
                         &found.interaction_unclipped}) {
    scale_up(*variance, factor);
  }
  if (!std::isfinite(table.ss_total)) throw InputError("out_of_range", "rows", "the values lie too far apart");
  return model;
}

}  // namespace brakewright::gauge_study
