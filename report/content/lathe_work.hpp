#pragma once

#include "report/content/content.hpp"
#include "report/record.hpp"

namespace brakewright::report {

/// What was done to one part at the lathe. `any` is false where nothing is on record.
LatheWorkContent lathe_work_of(const RecordInput& input, const shop::Part& part);

/// The section of a mount. Pieces or dimensions that are not known leave it without shapes.
StackSection section_of(const RecordInput& input, const shop::Part& part, const shop::Mount& mount);

/// The steps of a part, the ticked ones of each phase and pass together; what went wrong on a line of its own.
Table steps_of(const RecordInput& input, const shop::Part& part);

}  // namespace brakewright::report
