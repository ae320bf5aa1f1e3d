#include "core/gauge_study/gauge_study.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "core/gauge_study/check.hpp"
#include "core/gauge_study/crossed.hpp"
#include "core/gauge_study/findings.hpp"
#include "core/gauge_study/groups.hpp"
#include "core/gauge_study/intervals.hpp"
#include "core/input_error.hpp"

namespace brakewright::gauge_study {
namespace {

void check_size(const Crossed& data) {
  if (data.parts.size() < 2) {
    throw InputError("missing", "rows", "readings of two parts or more are needed");
  }
  if (data.levels.size() < 2 && data.repeats < 2) {
    throw InputError("missing", "rows",
                     "one operator who read every part once tells nothing: two operators or two repeats are needed");
  }
}

/// What the interaction's p says; with no scatter at all there is nothing to keep apart.
bool pools(const Model& full, double alpha) {
  const auto& interaction = full.table.interaction;
  return interaction && interaction->p.value_or(1.0) > alpha;
}

std::vector<Cell> cells_of(const Crossed& data) {
  std::vector<Cell> cells;
  for (std::size_t p = 0; p < data.parts.size(); ++p) {
    for (std::size_t l = 0; l < data.levels.size(); ++l) {
      const double mean = data.cell_mean(p, l);
      Cell cell{.part = data.parts[p], .operator_name = data.levels[l], .mean = data.origin + mean * data.scale};
      if (data.repeats > 1) {
        double squares = 0;
        for (const double value : data.cell(p, l)) squares += (value - mean) * (value - mean);
        cell.sd = std::sqrt(squares / static_cast<double>(data.repeats - 1)) * data.scale;
      }
      cells.push_back(std::move(cell));
    }
  }
  return cells;
}

/// What offsets are held against.
Effect offsets_of(const Table& table) { return table.interaction ? *table.interaction : table.repeatability; }

/// Whether every operator read with one instrument only, and no two with the same.
bool one_each(const std::vector<Row>& rows) {
  std::map<std::string, std::set<std::string>> instruments, operators;
  for (const Row& row : rows) {
    instruments[row.operator_name].insert(*row.instrument);
    operators[*row.instrument].insert(row.operator_name);
  }
  const auto single = [](const auto& entry) { return entry.second.size() == 1; };
  return operators.size() > 1 && std::all_of(instruments.begin(), instruments.end(), single) &&
         std::all_of(operators.begin(), operators.end(), single);
}

bool several_in_a_cell(const std::vector<Row>& rows) {
  std::map<std::pair<std::string, std::string>, const std::string*> first;
  return std::any_of(rows.begin(), rows.end(), [&](const Row& row) {
    const auto [found, is_new] = first.try_emplace({row.part, row.operator_name}, &*row.instrument);
    return !is_new && *found->second != *row.instrument;
  });
}

class Looking {
 public:
  explicit Looking(const Input& input) : input_(input), data_(arrange(input.rows, Factor::operators)) {
    check_size(data_);
  }

  Study look() {
    found_.parts = data_.parts;
    found_.operators = data_.levels;
    found_.repeats = data_.repeats;
    put_models();
    put_figures();
    found_.cells = cells_of(data_);
    const Balanced balanced{.data = &data_, .offsets = offsets_of(unreduced().table)};
    found_.by_operator = groups_of(input_, Factor::operators, &balanced, variances());
    put_instruments();
    found_.findings = findings_of(found_);
    put_notes();
    return std::move(found_);
  }

 private:
  void put_models() {
    const bool crossed = data_.levels.size() > 1;
    if (data_.repeats > 1) scaled_full_ = full_model(data_);
    if (crossed) scaled_pooled_ = pooled_model(data_);
    found_.is_pooled = !scaled_full_ || (crossed && pools(*scaled_full_, input_.alpha_pool));
    if (scaled_full_) found_.full = unscaled(*scaled_full_, data_.scale);
    if (scaled_pooled_) found_.pooled = unscaled(*scaled_pooled_, data_.scale);
  }

  /// The model that keeps apart what can be kept apart.
  const Model& unreduced() const { return found_.full ? *found_.full : *found_.pooled; }
  const Model& reported() const { return found_.is_pooled ? *found_.pooled : *found_.full; }

  void put_figures() {
    const Model& model = found_.is_pooled ? *scaled_pooled_ : *scaled_full_;
    const Table& table = scaled_full_ ? scaled_full_->table : scaled_pooled_->table;
    std::optional<double> tolerance;
    if (input_.tolerance) tolerance = *input_.tolerance / data_.scale;
    found_.figures = unscaled(figures_of(model.components, tolerance), data_.scale);
    found_.intervals = unscaled(
        intervals_of(table, {.parts = data_.parts.size(), .levels = data_.levels.size(), .repeats = data_.repeats},
                     tolerance, {.count = input_.draws, .seed = input_.seed}),
        data_.scale);
  }

  StudyVariances variances() const {
    const Components& found = reported().components;
    return {.repeatability = found.repeatability, .reproducibility = found.reproducibility};
  }

  void put_instruments() {
    if (!input_.rows.front().instrument) return;
    const std::string& first = *input_.rows.front().instrument;
    if (std::all_of(input_.rows.begin(), input_.rows.end(), [&](const Row& row) { return *row.instrument == first; })) {
      return;
    }
    ByInstrument by;
    try {
      const Crossed data = arrange(input_.rows, Factor::instruments);
      const Model model = unscaled(data.repeats > 1 ? full_model(data) : pooled_model(data), data.scale);
      by.table = model.table;
      const Balanced balanced{.data = &data, .offsets = offsets_of(model.table)};
      by.groups = groups_of(input_, Factor::instruments, &balanced, variances());
    } catch (const InputError& unbalanced) {
      found_.notes.push_back(std::string("The instruments are not compared part by part: ") + unbalanced.what() + ".");
      by.groups = groups_of(input_, Factor::instruments, nullptr, variances());
    }
    found_.by_instrument = std::move(by);
    if (one_each(input_.rows)) {
      found_.notes.emplace_back(
          "Each operator read with an instrument of their own, so what operators and what instruments differ by cannot "
          "be told apart.");
    }
    if (several_in_a_cell(input_.rows)) {
      found_.notes.emplace_back(
          "Repeats of one operator on one part were read with several instruments, so that repeatability contains what "
          "the instruments differ by; each operator's own does not.");
    }
  }

  void note_negative(const std::optional<double>& unclipped, const char* what) {
    if (unclipped && *unclipped < 0) {
      found_.notes.push_back(std::string("The variance of ") + what +
                             " came out negative and counts as 0: it is too small for this study to see.");
    }
  }

  void put_notes() {
    if (data_.levels.size() < 2) {
      found_.notes.emplace_back(
          "One operator alone: what operators differ by cannot be told, so it is missing in the repeatability and "
          "reproducibility together and in every percentage.");
    }
    if (data_.repeats < 2) {
      found_.notes.emplace_back(
          "One repeat alone: repeatability and the interaction of part and operator cannot be told apart and stand "
          "together under repeatability.");
    }
    const Components& components = reported().components;
    note_negative(components.operators_unclipped, "the operators");
    note_negative(components.interaction_unclipped, "the interaction");
    note_negative(components.part_unclipped, "the parts");
    if (found_.figures.grr_sd == 0) {
      found_.notes.emplace_back(
          "All readings of each part are equal: the instrument is too coarse to show the scatter, or the readings are "
          "copies.");
    }
  }

  const Input& input_;
  Crossed data_;
  std::optional<Model> scaled_full_, scaled_pooled_;
  Study found_;
};

}  // namespace

std::string_view name_of(ReadingBasis basis) {
  switch (basis) {
    case ReadingBasis::reference:
      return "reference";
    case ReadingBasis::reproducibility:
      return "reproducibility";
    case ReadingBasis::repeatability:
      break;
  }
  return "repeatability";
}

Study study_gauge(const Input& input) {
  check(input);
  return Looking(input).look();
}

}  // namespace brakewright::gauge_study
