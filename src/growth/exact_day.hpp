// SPDX-License-Identifier: Apache-2.0
#pragma once

namespace tidelot {

/// The start of a day with constant rates: dW/dt = m W, dQ/dt = a (Qmax - Q) - m Q; at its end the
/// share 1 - e^(-loss) of the crop breaks off, at the reserve it then has. a, the uptake at empty
/// reserve over Qmax - Qmin (1/d), may still be chosen.
struct DayStart {
  double weight;      ///< W
  double reserve;     ///< Q
  double net_growth;  ///< m, growth less respiration, 1/d
  double loss;        ///< 1/d
  double q_min;
  double q_max;
};

/// The end of it. taken_up (the integral of a (Qmax - Q) W) and lost are nitrogen per dry-to-fresh
/// ratio. What the bounds of the reserve add or take is part of taken_up: a shrinking crop that is
/// full gives nitrogen back to the water.
struct ExactDay {
  double weight;
  double reserve;
  double taken_up;
  double lost;
};

/// Solves the day exactly for any uptake, then holds the reserve in its bounds. What does not hang
/// on the uptake is computed once: a farm tries some dozen values a day.
class DayAhead {
 public:
  explicit DayAhead(const DayStart& day);
  /// ExactDay::taken_up at a.
  [[nodiscard]] double taken_up(double uptake_per_day) const;
  [[nodiscard]] ExactDay end(double uptake_per_day) const;

 private:
  /// s = a + m, and the reserve at the end before and after it is held in its bounds.
  struct Reserve {
    double s, push, free, held;
  };
  [[nodiscard]] Reserve reserve(double uptake_per_day) const;
  [[nodiscard]] double taken_up(double uptake_per_day, const Reserve& reserve) const;

  DayStart day_;
  double grown_;        // the weight at the end, before anything breaks off
  double weight_days_;  // its integral over the day
};

/// (e^x - 1)/x, 1 at 0.
[[nodiscard]] double exp_slope(double x);

/// (exp_slope(x) - exp_slope(y))/(x - y), also where x = y: the integral over 0..1 of
/// (e^(xt) - e^(yt))/(x - y).
[[nodiscard]] double exp_curvature(double x, double y);

}  // namespace tidelot
