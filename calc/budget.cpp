#include "core/uncertainty/budget.hpp"

#include <nlohmann/json.hpp>

#include "calc/methods.hpp"
#include "calc/reader.hpp"
#include "core/input_error.hpp"

namespace brakewright::calc {
namespace {

Distribution distribution_named(const std::string& word) {
  if (word == "rectangular") return Distribution::rectangular;
  if (word == "triangular") return Distribution::triangular;
  if (word == "u-shaped") return Distribution::u_shaped;
  return Distribution::normal;
}

double read_u(Reader& reader) {
  const auto u = reader.optional_number("u");
  const auto half_width = reader.optional_number("half_width");
  const auto word = reader.optional_one_of("distribution", {"normal", "rectangular", "triangular", "u-shaped"});
  if (u && half_width) {
    throw InputError("out_of_range", reader.path_of("half_width"), "give u or half_width, not both");
  }
  if (u) return *u;
  if (!half_width) throw InputError("missing", reader.path_of("u"), "u, or half_width in its place, is needed");
  const Distribution distribution = distribution_named(word.value_or("normal"));
  if (distribution == Distribution::normal) {
    throw InputError("out_of_range", reader.path_of("half_width"),
                     "a normal distribution has no half width: give its u, or name another distribution");
  }
  if (*half_width < 0.0) throw InputError("out_of_range", reader.path_of("half_width"), "must be 0 or more");
  return standard_uncertainty(*half_width, distribution);
}

Component read_component(Reader& reader) {
  Component component{.name = reader.optional_text("name").value_or(""), .u = read_u(reader)};
  reader.optional_number("value");
  component.sensitivity = reader.number_or("sensitivity", 1.0);
  component.dof = reader.optional_number("dof");
  reader.done();
  return component;
}

}  // namespace

Json run_budget(const Json& input) {
  Reader reader(input);
  std::vector<Component> components;
  for (Reader& one : reader.objects("components")) components.push_back(read_component(one));
  const double confidence = reader.number_or("confidence", 0.95);
  reader.done();

  const Budget budget = combine(components, confidence);
  Json contributions = Json::array();
  for (std::size_t i = 0; i < components.size(); ++i) {
    contributions.push_back(
        {{"name", components[i].name}, {"u", budget.contributions[i].u}, {"share", budget.contributions[i].share}});
  }
  return {{"u", budget.u},
          {"dof_effective", budget.dof_effective ? Json(*budget.dof_effective) : Json(nullptr)},
          {"k", budget.k},
          {"U", budget.expanded},
          {"contributions", std::move(contributions)}};
}

}  // namespace brakewright::calc
