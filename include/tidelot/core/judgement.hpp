// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>
#include <vector>

namespace tidelot {

/// Weights from judging criteria in pairs.
struct JudgedWeights {
  std::vector<double> weights;  ///< add up to 1
  double largest_eigenvalue = 0.0;
  double consistency_index = 0.0;  ///< (largest eigenvalue - n)/(n - 1)
  /// The index over that of random judgements of the same size; 0 for one or two criteria, whose
  /// judgements cannot contradict each other.
  double consistency_ratio = 0.0;
};

/// The principal eigenvector of a positive reciprocal matrix, n x n, row by row: entry (i, j) says
/// how many times as important criterion i is as criterion j. Saaty 1977, J. Math. Psychol. 15;
/// 2008, Int. J. Serv. Sci. 1:83-98. Random indices for n up to 10 (read second-hand); beyond ten
/// criteria that of ten is taken. Throws std::invalid_argument unless 1 <= n and every entry is
/// positive and finite.
[[nodiscard]] JudgedWeights judged_weights(std::span<const double> matrix, int n);

}  // namespace tidelot
