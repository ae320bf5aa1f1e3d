#pragma once

#include "calc/calc.hpp"
#include "core/circle/circle.hpp"
#include "core/cleanup/cleanup.hpp"
#include "core/diagnosis/diagnose.hpp"
#include "core/dials/dial_check.hpp"
#include "core/dials/lathe_study.hpp"
#include "core/gauge_study/gauge_study.hpp"
#include "core/heat/heat.hpp"
#include "core/pulsation/pulsation.hpp"
#include "core/runout/runout.hpp"
#include "core/thickness/thickness.hpp"
#include "core/verdict/after_cut.hpp"
#include "core/verdict/verdict.hpp"

/// Answers of the core as JSON, the same from `calc` and from the server: api/openapi.yaml describes each.
namespace brakewright::calc {

Json to_json(const std::vector<Harmonic>& harmonics);
Json to_json(const Posterior& posterior);
Json to_json(const std::vector<Advice>& advice);
Json to_json(const Thickness& thickness);
Json to_json(const Runout& runout);
Json to_json(const Cleanup& cleanup);
Json to_json(const LengthLimit& limit);
Json to_json(const Reason& reason);
Json to_json(const std::vector<Reason>& reasons);
Json to_json(const NextMeasurement& next);
Json to_json(const PartVerdict& part);
Json to_json(const Verdict& verdict);
Json to_json(const AfterCheck& check);
Json to_json(const AfterCut& after);

Json to_json(const diagnosis::Diagnosis& found);

Json to_json(const dials::DialCheck& check);
Json to_json(const dials::LatheStudy& study);

Json to_json(const gauge_study::Study& study);

Json to_json(const heat::OneStop& stop);
Json to_json(const heat::RepeatedStops& repeats);
Json to_json(const pulsation::OrderFit& fit);
Json to_json(const pulsation::SpeedRow& row);
Json to_json(const pulsation::Growth& growth);

/// A number, or null where there is none.
Json or_null(const std::optional<double>& number);
Json or_null(const std::optional<WearRoom>& room);

/// Whether a cut is called for: "yes", "no", "cannot tell", or null where nothing asks for one.
Json called_for(const std::optional<Standing>& standing);

}  // namespace brakewright::calc
