#pragma once

#include "report/content/assessed.hpp"
#include "report/content/content.hpp"

/// How the content is made, part by part.
namespace brakewright::report {

Content content_of(const RecordInput& input);

TitleContent title_of(const RecordInput& input);
VerdictContent verdict_of(const RecordInput& input, const AssessedJob& job);

/// @param full_scale  of the rings' colours, in the shop's unit of deviation
RotorContent rotor_of(const RecordInput& input, const AssessedRotor& rotor, double full_scale);

/// Largest deviation from its stage's mean of any thickness reading, rounded up, in the shop's unit of deviation.
double full_scale_of(const std::vector<AssessedRotor>& rotors, Unit unit);

/// Of a drum its inside, the open edge outermost, each diameter at both of its ends.
Ring ring_of(const AssessedStage& stage, const shop::Part& part, const std::string& title, double full_scale,
             Unit unit);
TracePlot thickness_traces(const AssessedRotor& rotor, Unit unit);
TracePlot runout_traces(const AssessedRotor& rotor, Unit unit);
ThicknessScale scale_of(const AssessedRotor& rotor, Unit unit);

std::vector<FigureContent> figures_of(const AssessedRotor& rotor, Unit unit);
std::vector<FigureContent> drum_figures_of(const AssessedRotor& drum, Unit unit);
Table limits_of(const shop::Limits& limits, bool drum = false);
Table readings_of(const AssessedRotor& rotor, Unit unit);
Table cut_of(const AssessedRotor& rotor, Unit unit);
std::string cut_note_of(const AssessedRotor& rotor, Unit unit);
CheckContent check_of(const AssessedRotor& rotor, Unit unit);

std::vector<ReasonContent> findings_of(const RecordInput& input);
std::vector<ReasonContent> amendments_of(const RecordInput& input);
Table instruments_of(const RecordInput& input);

}  // namespace brakewright::report
