#pragma once

#include "core/verdict/verdict.hpp"

/// The sentences behind a drum's verdict: those of `reasons` with diameters in the place of thickness.
namespace brakewright::drum_reasons {

Reason discard(const PartVerdict& numbers, const LengthLimit& limit, Standing standing);
Reason between_limits(const PartVerdict& numbers, const LengthLimit& discard);
Reason variation(const PartVerdict& numbers, const LengthLimit& limit, Standing standing);
Reason taper(const PartVerdict& numbers, const LengthLimit& limit, Standing standing);
Reason after_cut(const PartVerdict& numbers, Standing standing);
Reason final_over_discard(const PartVerdict& numbers, const LengthLimit& discard);
Reason machine_to_unknown(const PartVerdict& numbers);
Reason no_limits();
Reason house_rule(const PartVerdict& numbers, const LengthLimit& allowance);
Reason runout_assumed();
Reason pulsation(const PartVerdict& numbers);
Reason partner_cannot(const PartVerdict& partner);

}  // namespace brakewright::drum_reasons
