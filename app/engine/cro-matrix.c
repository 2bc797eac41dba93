#include "cro-matrix.h"

#include "cro-money.h"

CroMatrixLimits
cro_matrix_limits (const double *sold,
                   const double *contribution,
                   size_t        n)
{
  double all = 0, left = 0;

  for (size_t i = 0; i < n; i++)
    {
      all += sold[i];
      left += sold[i] * contribution[i];
    }
  return (CroMatrixLimits){ .sold = 7 * all / (10 * (double) n), .contribution = left / all };
}

bool
cro_matrix_is_popular (const CroMatrixLimits *limits,
                       double                 sold)
{
  return !cro_is_above (limits->sold, sold);
}

bool
cro_matrix_earns (const CroMatrixLimits *limits,
                  double                 contribution)
{
  return !cro_is_above (limits->contribution, contribution);
}
