#include "config.h"

#include "cro-cli.h"

#include <glib/gi18n.h>

void
cro_cli_print_cost_table (CroCosting *costing)
{
}

void
cro_cli_print_cost_cards (CroCosting *costing)
{
}
