#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// Gauge studies: parts, each read several times by each of several people, told apart into what the parts differ by,
/// what the people differ by, and what is left. Everything is in the readings' own unit, or its square.
namespace brakewright::gauge_study {

struct Row {
  std::string part = {};
  std::string operator_name = {};
  double value = 0;
  std::optional<std::string> instrument = {};  ///< on all rows or on none
};

/// What a reference part really is.
struct Reference {
  std::string part = {};
  double value = 0;
  double u = 0;  ///< standard uncertainty, >= 0
};

struct Input {
  std::vector<Row> rows = {};              ///< in any order; at most 100000
  std::optional<double> tolerance = {};    ///< whole width of the tolerance, > 0
  double alpha_pool = 0.25;                ///< the interaction is pooled when its p exceeds this; 0 to 1
  std::vector<Reference> references = {};  ///< of some or all parts, each once
  double u_instrument = 0;  ///< standard uncertainty that all readings share (indication error, zero, resolution), >= 0
  std::uint64_t seed = 1;   ///< of the draws behind the intervals
  std::size_t draws = 10000;  ///< 1000 to 200000
};

struct Interval {
  double low95 = 0;
  double high95 = 0;
};

/// One line of an analysis of variance.
struct Effect {
  double ss = 0;
  int df = 0;
  double ms = 0;
  std::optional<double> f = {};  ///< nothing when what it is held against is 0, and for repeatability
  std::optional<double> p = {};  ///< 0 for an infinite F
};

struct Table {
  Effect part = {};
  std::optional<Effect> operators = {};    ///< nothing with one operator
  std::optional<Effect> interaction = {};  ///< nothing with one operator or one repeat, and once pooled
  Effect repeatability = {};
  double ss_total = 0;
  int df_total = 0;
};

/// Variance components.
struct Components {
  double repeatability = 0;
  std::optional<double> operators = {};        ///< nothing with one operator
  std::optional<double> interaction = {};      ///< nothing where it cannot be told; 0 once pooled
  std::optional<double> reproducibility = {};  ///< operators + interaction
  double grr = 0;                              ///< repeatability + reproducibility
  double part = 0;
  double total = 0;
  // As the mean squares give them; those above are 0 where these are negative.
  std::optional<double> operators_unclipped = {};
  std::optional<double> interaction_unclipped = {};
  double part_unclipped = 0;
};

/// A table and the components out of it.
struct Model {
  Table table = {};
  Components components = {};
};

struct Figures {
  double repeatability_sd = 0;
  std::optional<double> operator_sd = {};  ///< these three: nothing where they cannot be told
  std::optional<double> interaction_sd = {};
  std::optional<double> reproducibility_sd = {};
  double grr_sd = 0;
  double part_sd = 0;
  double total_sd = 0;
  std::optional<double> percent_grr = {};        ///< 100 grr_sd / total_sd; nothing when all readings are equal
  std::optional<double> percent_tolerance = {};  ///< 100 * 6 grr_sd / tolerance
  std::optional<double> ndc_uncut = {};          ///< 1.41 part_sd / grr_sd; nothing when grr_sd is 0
};

/// 95 % intervals of the figures of the same names.
struct Intervals {
  Interval repeatability_sd = {};
  std::optional<Interval> operator_sd = {};
  std::optional<Interval> interaction_sd = {};
  std::optional<Interval> reproducibility_sd = {};
  Interval grr_sd = {};
  Interval part_sd = {};
  Interval total_sd = {};
  std::optional<Interval> percent_grr = {};
  std::optional<Interval> percent_tolerance = {};
  std::optional<Interval> ndc_uncut = {};
  std::optional<double> p_repeatability_larger = {};  ///< share of draws with more repeatability than reproducibility
};

/// One part as one person, or one instrument, read it, against its reference.
struct PartError {
  std::string part = {};
  double mean = 0;
  double reference = 0;
  double u_reference = 0;
  double difference = 0;          ///< mean - reference
  std::optional<double> en = {};  ///< difference over U at k = 2 of both; nothing when both are 0
};

enum class ReadingBasis { reference, reproducibility, repeatability };
std::string_view name_of(ReadingBasis basis);

/// One person, or one instrument, among the others.
struct Group {
  std::string name = {};
  std::size_t readings = 0;
  double mean = 0;
  std::optional<double> repeatability_sd = {};  ///< own; nothing where nothing was read twice
  int dof = 0;
  std::optional<Interval> repeatability_interval = {};
  std::optional<double> spread_ratio = {};  ///< own over that of the ordinary others together
  std::optional<double> spread_p = {};      ///< that one of so many equals differs so, Bonferroni
  std::optional<double> offset = {};        ///< own mean less that of the ordinary others; nothing with none
  std::optional<Interval> offset_interval = {};
  std::optional<double> offset_p = {};  ///< Bonferroni
  std::optional<double> bias = {};      ///< mean difference from the references
  std::optional<double> u_bias = {};
  std::optional<Interval> bias_interval = {};
  std::optional<double> bias_p = {};  ///< Bonferroni
  std::vector<PartError> errors = {};
  double u_reading = 0;  ///< standard uncertainty of one reading: own scatter and `u_common`
  double u_common = 0;   ///< its part that repeating does not lessen: bias and references, or instrument and people
  ReadingBasis u_reading_basis = ReadingBasis::repeatability;
};

/// The same study with the instruments in the operators' place.
struct ByInstrument {
  std::optional<Table> table = {};  ///< nothing where they did not read all parts equally often
  std::vector<Group> groups = {};
};

enum class FindingCode {
  repeatability_dominates,    ///< value: its share of the variance of both; p: share of draws that say the other
  reproducibility_dominates,  ///< value and p likewise
  interaction_present,        ///< p <= 0.05
  parts_not_told_apart,       ///< p of the parts > 0.05
  operator_spread,            ///< value: spread_ratio; p <= 0.05
  operator_offset,            ///< value: offset
  operator_bias,              ///< value: bias
  instrument_spread,
  instrument_offset,
  instrument_bias
};
std::string_view name_of(FindingCode code);

struct Finding {
  FindingCode code = FindingCode::repeatability_dominates;
  std::optional<std::string> who = {};
  std::optional<double> value = {};
  std::optional<double> p = {};
};

/// Mean and own spread of one person's readings of one part, for pictures.
struct Cell {
  std::string part = {};
  std::string operator_name = {};
  double mean = 0;
  std::optional<double> sd = {};  ///< nothing with one repeat
};

struct Study {
  std::vector<std::string> parts = {};  ///< in the order of their first row
  std::vector<std::string> operators = {};
  std::size_t repeats = 0;
  std::optional<Model> full = {};    ///< with the interaction; nothing with one repeat
  std::optional<Model> pooled = {};  ///< without it; nothing with one operator
  bool is_pooled = false;            ///< which of the two the figures are from
  Figures figures = {};
  Intervals intervals = {};
  std::vector<Cell> cells = {};  ///< part by part
  std::vector<Group> by_operator = {};
  std::optional<ByInstrument> by_instrument = {};  ///< with two instruments or more
  std::vector<Finding> findings = {};
  std::vector<std::string> notes = {};  ///< what cannot be told apart, and what was set to 0
};

/// Two-way analysis of variance with random parts and operators, crossed and balanced, and what follows from it.
///
/// Every operator reads every part equally often; other data are refused, naming the first cell that differs. At least
/// two parts, and at least two operators or two repeats. With one operator nothing is said of reproducibility; with one
/// repeat the interaction is in repeatability; both stand in the notes. F of part and operator is against the
/// interaction, or against repeatability once the interaction is pooled with it. Negative components count as 0.
///
/// Intervals of repeatability are those of chi-squared. All others are generalised: mean squares divided by draws of
/// chi-squared over its degrees of freedom, in the model with the interaction whichever was reported, sums taken before
/// anything is set to 0. Pooling first would leave the interval of a true interaction at 0 whenever the test misses it.
/// Coverage is held by tests/calibration; a component that is truly 0 is held more often than 95 %, as only the lower
/// end can miss it.
///
/// A person's own repeatability is pooled over the finest cells (part, operator, instrument). Spread is held against
/// the others' by F, two-sided; offset by Student's t on the interaction's mean square (repeatability's with the
/// interaction pooled for want of repeats); both times the number of persons. The others are the ordinary ones: who
/// differs most is taken out first, one by one, as one reader far off would make all others look off. Bias is the mean
/// of d, the part means less their references; u_bias^2 = s_d^2 / n + (mean u_ref)^2 (s^2 / repeats for s_d^2 / n with
/// one reference), references taken as fully correlated since one master usually measured them all; En = d / sqrt(U_x^2
/// + U_ref^2), U at k = 2, u_x^2 = s^2 / repeats + u_instrument^2. One reading's standard uncertainty is sqrt(s^2 +
/// mean d^2 + mean u_ref^2) with references, bias not corrected; sqrt(s^2 + reproducibility + u_instrument^2) without;
/// s is the study's where nothing was read twice.
/// @throws InputError "missing", "too_many", "not_finite", "out_of_range", "duplicate" with paths such as
///         "rows[3].value"
/// Sums are compensated, of differences from one reading; mean squares below the last digit of the doubles count as 0.
/// Source: Burdick, Borror, Montgomery, Design and Analysis of Gauge R&R Studies (2005), ch. 3 and appendix B
/// (generalised intervals); Hamada and Weerahandi (2000), J. Quality Technology 32; JCGM 100:2008, 5.1.2, 5.2.2, G.4;
/// bias uncorrected: Nordtest TR 537; En: ISO 13528; all cited from memory, tables checked on published studies.
Study study_gauge(const Input& input);

}  // namespace brakewright::gauge_study
