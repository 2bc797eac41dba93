/* cro-service-orders.h: what a plan buys, supplier by supplier. */
#pragma once

#include "cro-service-plan.h"

G_BEGIN_DECLS

/* CRO_NO_SLOT where no pack can be had. */
guint32  cro_plan_buy_supplier  (const CroServicePlan *plan,
                                 const CroPlanBuy     *buy);

/* Adds up plan->buy, sorted by supplier, into plan->orders and the plan's cost, and reads what
 * suppliers ask for. FALSE with error (CRO_STORE_ERROR). */
gboolean cro_service_plan_order (CroServicePlan       *plan,
                                 CroBook              *book,
                                 GError              **error);

/* Puts what is bought of each supplier in the order of the reader's language; a plan has it by bytes, which is the
 * same everywhere. */
void     cro_service_plan_sort_for_reader (CroServicePlan *plan);

/* Minor units of digits: orders[] of every order and rows[] of every row of buy (0 without a pack),
 * so that rows add up to their order, and orders to the plan's cost as it is shown (cro-money.h). */
void     cro_plan_apportion     (const CroServicePlan *plan,
                                 int                   digits,
                                 gint64               *orders,
                                 gint64               *rows);

G_END_DECLS
