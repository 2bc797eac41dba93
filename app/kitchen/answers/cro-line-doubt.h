/* cro-line-doubt.h: a line whose trim counts a loss that the batch counts already.
 *
 * 4 kg of crab weighed trimmed, at a trim yield of 25 %, buys 16 kg. Where the batch then gives
 * 1 kg of weighed meat, or a yield of 25 %, the shells were weighed with the crab, and are lost twice.
 *
 * Units      Base units of the item. */
#pragma once

#include "cro-figures.h"

G_BEGIN_DECLS

/* Whether that is likely, which is a question and never an error: the line is at least half of
 * what goes in, its item, or it by a yield of its own, loses a good part to trimming (30 % or more), and the
 * main output is not much more than that trim leaves. *net is the amount as weighed, *bought what it buys. */
gboolean cro_line_loses_twice (CroFigures *figures,
                               guint32     line,
                               double     *net,
                               double     *bought);

G_END_DECLS
