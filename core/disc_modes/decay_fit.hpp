#pragma once

#include <complex>
#include <vector>

namespace brakewright::disc_modes {

/// One a e^(s k) of a complex signal of samples k = 0, 1, ...
struct Decay {
  std::complex<double> s = 0;  ///< per sample
  std::complex<double> a = 0;
  double u_s = 0;  ///< standard uncertainty of either part of s
};

struct DecayFit {
  std::vector<Decay> parts;  ///< as many as asked for; none where the fit did not settle
  double squares = 0;        ///< what is left, summed
};

/// The least-squares sum of one or two decaying exponentials.
/// @param signal  finite; at least 4 samples for each part
/// @param count   1 or 2
/// Source: Prony (1795) as linear prediction for the first guess; Gauss-Newton in complex parameters, which holds
/// since the model is analytic in them.
DecayFit fit_decays(const std::vector<std::complex<double>>& signal, int count);

}  // namespace brakewright::disc_modes
