#include <algorithm>

#include "report/content/build.hpp"
#include "report/content/figures.hpp"
#include "report/content/names.hpp"

namespace brakewright::report {

namespace {

std::string word_of(Action action) {
  switch (action) {
    case Action::leave:
      return word_of_action(shop::Action::leave);
    case Action::cut:
      return word_of_action(shop::Action::cut);
    case Action::replace:
      return word_of_action(shop::Action::replace);
    case Action::measure_again:
      return word_of_action(shop::Action::measure_again);
  }
  return {};
}

ReasonContent reason_of(const Reason& reason) {
  std::string text = typeset(reason.text);
  if (!reason.part.empty() && text.compare(0, reason.part.size(), reason.part) != 0) text = reason.part + ": " + text;
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  std::string basis;
  const bool told = text.find("probability") != std::string::npos;
  if (reason.p && !told) basis.append("p ").append(probability_figure(*reason.p));
  if (!reason.source.empty()) {
    if (!basis.empty()) basis.append(", ");
    basis.append(reason.limit ? "limit: " : "").append(reason.source);
  }
  return {text, basis};
}

std::string joined(const std::vector<std::string>& parts) {
  std::string text;
  for (const std::string& part : parts) text.append(text.empty() ? "" : " ").append(part);
  return text;
}

void add_decision(VerdictContent& content, const RecordInput& input) {
  if (input.file.decisions.empty()) return;
  const shop::Decision& last = input.file.decisions.back();
  content.decision = word_of_action(last.action);
  content.decided_by = person_name(input, last.by_person_id, true) + ", " + time_figure(last.at, input.local_clock);
  if (last.action != last.computed_action) {
    std::string computed = word_of_action(last.computed_action);
    computed[0] = static_cast<char>(computed[0] - 'A' + 'a');
    content.decision_note.append("Overrules what was computed: ").append(computed);
    content.decision_note.append(" (p ").append(probability_figure(last.computed_p)).append(").");
  }
  content.decision_reason = last.reason;
  const std::size_t earlier = input.file.decisions.size() - 1;
  if (earlier > 0) {
    if (!content.decision_reason.empty()) content.decision_reason.append(" ");
    content.decision_reason.append("(").append(std::to_string(earlier)).append(" earlier, see the job)");
  }
}

}  // namespace

VerdictContent verdict_of(const RecordInput& input, const AssessedJob& job) {
  VerdictContent content{.word = "Not measured", .asked = input.settings.confidence};
  if (job.verdict) {
    content.word = word_of(job.verdict->action);
    content.p = std::clamp(job.verdict->p, 0.0, 1.0);
    content.p_text = probability_figure(*content.p);
    for (const Reason& reason : job.verdict->reasons) content.reasons.push_back(reason_of(reason));
    if (job.verdict->next_measurement) {
      content.next_label = "What would settle it";
      content.next = typeset(job.verdict->next_measurement->text);
    }
  } else {
    const bool read = std::any_of(input.file.readings.begin(), input.file.readings.end(),
                                  [](const shop::Reading& reading) { return !reading.withdrawn_at; });
    if (read) content.word = "No verdict yet";
  }
  if (content.next.empty() && !job.missing.empty()) {
    content.next_label = "What is missing";
    content.next = joined(job.missing);
  }
  add_decision(content, input);
  return content;
}

}  // namespace brakewright::report
