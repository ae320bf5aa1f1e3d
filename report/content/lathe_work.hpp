#pragma once

#include "report/content/content.hpp"
#include "report/record.hpp"

namespace brakewright::report {

/// What was done to one part at the lathe. `any` is false where nothing is on record.
LatheWorkContent lathe_work_of(const RecordInput& input, const shop::Part& part);

/// The section of a mount. Pieces or dimensions that are not known leave it without shapes.
StackSection section_of(const RecordInput& input, const shop::Part& part, const shop::Mount& mount);

/// The steps at the lathe, or those of going back on the car.
enum class StepsWhere { at_the_lathe, on_the_car };

/// The steps of a part by their times: a sentence for the ticked ones of each phase and pass, one for passes that went
/// alike, and one for each thing that went wrong. Who did them is told apart only where there was more than one.
Table steps_of(const RecordInput& input, const shop::Part& part, StepsWhere where = StepsWhere::at_the_lathe);

/// What the steps are, with whose they are where they are all of one person.
std::string steps_note_of(const RecordInput& input, const shop::Part& part,
                          StepsWhere where = StepsWhere::at_the_lathe);

}  // namespace brakewright::report
