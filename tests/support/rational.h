/* rational.h: GMP's rationals written as expressions.
 *
 * Ownership  Every result is a cell of one pool, which grows; q_reuse_all () takes all cells back
 *            at once, q_free_all () their memory too. */
#pragma once

#include <stdbool.h>
#include <stdint.h>

#include <gmp.h>

mpq_ptr q_number    (long          numerator,
                     unsigned long denominator);

/* Millionths; millionths of a per cent, as a fraction. */
mpq_ptr q_micro     (int64_t       decimal);
mpq_ptr q_pct       (int64_t       decimal);

mpq_ptr q_add       (mpq_srcptr    a,
                     mpq_srcptr    b);
mpq_ptr q_sub       (mpq_srcptr    a,
                     mpq_srcptr    b);
mpq_ptr q_mul       (mpq_srcptr    a,
                     mpq_srcptr    b);
mpq_ptr q_quo       (mpq_srcptr    a,
                     mpq_srcptr    b);

/* |a|, near enough. */
double  q_size      (mpq_srcptr    a);
bool    q_is_zero   (mpq_srcptr    a);

void    q_reuse_all (void);
void    q_free_all  (void);
