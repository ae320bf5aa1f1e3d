#pragma once

#include "core/verdict/verdict.hpp"

/// The sentences behind a verdict, each with its numbers.
namespace brakewright::reasons {

Reason finding(const Finding& finding);

/// Lowest reading against discard.
Reason discard(const PartVerdict& numbers, const LengthLimit& limit, Standing standing);

/// Lowest reading between discard and machine-to: may stay, may not be cut.
Reason between_limits(const PartVerdict& numbers, const LengthLimit& discard);

Reason variation(const PartVerdict& numbers, const LengthLimit& limit, Standing standing);
Reason runout(const PartVerdict& numbers, const LengthLimit& limit, Standing standing);
Reason scoring(const PartReadings& part, const LengthLimit& limit, double p, Standing standing);

/// What the least cut leaves, against machine-to.
Reason after_cut(const PartVerdict& numbers, Standing standing);

/// What the least cut leaves is under discard already: no machine-to is needed to rule it out.
Reason final_under_discard(const PartVerdict& numbers, const LengthLimit& discard);

Reason machine_to_unknown(const PartVerdict& numbers);
Reason discard_unknown();
Reason no_limits(const PartVerdict& numbers);
Reason house_rule(const PartVerdict& numbers, const LengthLimit& allowance);

/// The runout on the arbor was not read.
Reason runout_assumed(const PartReadings& part);

/// A runout over its limit on the car may be the hub's.
Reason runout_whose();

Reason pulsation(const PartVerdict& numbers);
Reason pulsation_elsewhere();
Reason no_cut_called_for();

Reason partner(Action action, const std::string& needs, const std::string& other);
Reason partner_cannot(const PartVerdict& partner);

}  // namespace brakewright::reasons
