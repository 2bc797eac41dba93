/* cro-month-pictures.h: why a month changed, and its matrix, as they are drawn. */
#pragma once

#include "cro-month-bridge.h"
#include "cro-month-matrix.h"
#include "cro-scatter.h"
#include "cro-waterfall.h"

G_BEGIN_DECLS

CroWaterfall *cro_month_bridge_waterfall (const CroMonthBridge *bridge);

/* Points stand in the order of matrix->rows, of which there is one at least. */
CroScatter   *cro_month_matrix_scatter   (CroModel             *model,
                                          const CroMonthMatrix *matrix);

G_END_DECLS
