/* What the columns of a supplier's list hold: asked where that is not clear, said once, and remembered. */
#include "config.h"

#include "cro-new-prices-private.h"

#include <glib/gi18n.h>

#include "cro-bring-columns.h"
#include "cro-drop-down.h"
#include "cro-field.h"
#include "cro-number.h"
#include "cro-said-columns.h"
#include "cro-state.h"
#include "cro-wrap.h"

/* In pixels: what they are given of the height, at most. */
#define MOST_HEIGHT 220

static const CroRole roles[] = {
  CRO_ROLE_NONE, CRO_ROLE_NAME, CRO_ROLE_CODE, CRO_ROLE_GTIN, CRO_ROLE_PRICE, CRO_ROLE_BASE_PRICE, CRO_ROLE_PACK,
  CRO_ROLE_PACK_COUNT, CRO_ROLE_PACK_SIZE, CRO_ROLE_UNIT, CRO_ROLE_CURRENCY, CRO_ROLE_DATE,
};

/* --- Remembered -------------------------------------------------------------------------------------------- */

static char *
dup_key (CroNewPrices *self)
{
  return g_strdup_printf ("list-columns.%" G_GINT64_FORMAT, cro_round_get_supplier_id (self->round));
}

static const char *
group_of (CroNewPrices *self)
{
  return cro_store_get_path (cro_book_get_store (cro_round_get_book (self->round)));
}

void
cro_new_prices_recall_columns (CroNewPrices *self)
{
  g_autofree char *key = dup_key (self), *kept = cro_state_dup_text (group_of (self), key);

  cro_round_say_columns (self->round, kept);
}

/* --- Said ---------------------------------------------------------------------------------------------------- */

static void
use_cb (CroNewPrices *self)
{
  g_autofree char *key = NULL, *said = NULL;

  if (self->round == NULL || self->taken == NULL)
    return;
  key = dup_key (self);
  said = cro_said_columns_of (self->taken->columns);
  cro_state_set_text (group_of (self), key, said);
  cro_round_say_columns (self->round, said);
  cro_new_prices_take_again (self, FALSE);
}

/* Another sheet of the workbook. */
static void
sheet_cb (CroNewPrices *self)
{
  guint sheet = gtk_drop_down_get_selected (GTK_DROP_DOWN (self->sheet));

  if (self->is_setting || self->round == NULL || self->taken == NULL || sheet == GTK_INVALID_LIST_POSITION)
    return;
  cro_round_say_sheet (self->round, sheet + 1);
  cro_new_prices_take_again (self, FALSE);
}

static void
show_sheets (CroNewPrices       *self,
             const CroPriceList *list)
{
  gboolean has_any = list != NULL && list->columns != NULL && list->sheets != NULL && list->sheets[0] != NULL
                     && list->sheets[1] != NULL;
  g_autoptr (GtkStringList) names = NULL;

  gtk_widget_set_visible (self->sheet_row, has_any);
  if (!has_any)
    return;
  self->is_setting = TRUE;
  names = gtk_string_list_new ((const char *const *) list->sheets);
  gtk_drop_down_set_model (GTK_DROP_DOWN (self->sheet), G_LIST_MODEL (names));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->sheet), list->columns->sheet);
  self->is_setting = FALSE;
}

/* The day that all rows of the list say. */
static void
dated_cb (CroNewPrices *self)
{
  g_autofree char *day = self->taken != NULL ? cro_date_to_text (self->taken->dated) : NULL;

  if (self->round == NULL || day == NULL)
    return;
  gtk_editable_set_text (GTK_EDITABLE (self->from), day);
  cro_new_prices_take_day (self);
  gtk_widget_set_visible (self->dated, FALSE);
}

static void
open_cb (CroNewPrices *self)
{
  gtk_widget_set_visible (self->columns_box, gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (self->columns_open)));
}

static void
show_dated (CroNewPrices *self)
{
  /* Not of an invoice that was refused. */
  gboolean is_other = self->taken != NULL && self->round != NULL && self->taken->source == CRO_LIST_TABLE
                      && self->taken->dated != CRO_NO_DAY
                      && self->taken->dated != cro_round_get_from (self->round);
  g_autofree char *day = is_other ? cro_date_to_text (self->taken->dated) : NULL;
  /* Translators: a button: the prices of a list hold from the day that stands in it. */
  g_autofree char *label = is_other ? g_strdup_printf (_("The List Says From %s: Use It"), day) : g_strdup ("");

  gtk_button_set_label (GTK_BUTTON (self->dated), label);
  gtk_widget_set_visible (self->dated, is_other);
}

void
cro_new_prices_show_columns (CroNewPrices *self,
                             CroPriceList *list)
{
  gboolean has_columns = list != NULL && cro_price_list_has_columns (list), is_asked = has_columns && list->is_unsure;

  if (self->columns == NULL)
    return;
  cro_bring_columns_set (CRO_BRING_COLUMNS (self->columns), has_columns ? list->columns : NULL, roles,
                         G_N_ELEMENTS (roles));
  g_clear_pointer (&self->taken, cro_price_list_free);
  self->taken = list;
  gtk_widget_set_visible (self->columns_open, has_columns);
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (self->columns_open), is_asked);
  open_cb (self);
  show_sheets (self, list);
  show_dated (self);
  if (is_asked)
    gtk_widget_child_focus (self->columns, GTK_DIR_TAB_FORWARD);
}

/* --- Parts --------------------------------------------------------------------------------------------------- */

GtkWidget *
cro_new_prices_columns_open_new (CroNewPrices *self)
{
  self->columns_open = gtk_toggle_button_new_with_mnemonic (_("_Match Columns…"));
  gtk_widget_set_tooltip_text (self->columns_open, _("What the columns of this list hold"));
  gtk_widget_set_visible (self->columns_open, FALSE);
  g_signal_connect_object (self->columns_open, "toggled", G_CALLBACK (open_cb), self, G_CONNECT_SWAPPED);
  return self->columns_open;
}

GtkWidget *
cro_new_prices_columns_new (CroNewPrices *self)
{
  GtkWidget *outer = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  GtkWidget *scroller = gtk_scrolled_window_new (), *row = cro_wrap_new (9, 6);
  GtkWidget *use = gtk_button_new_with_mnemonic (_("_Use These Columns"));

  self->columns_box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  self->columns = g_object_new (CRO_TYPE_BRING_COLUMNS, NULL);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scroller), TRUE);
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (scroller), MOST_HEIGHT);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), self->columns);
  cro_wheel_share (scroller);
  g_signal_connect_object (use, "clicked", G_CALLBACK (use_cb), self, G_CONNECT_SWAPPED);
  self->dated = gtk_button_new_with_label ("");
  g_signal_connect_object (self->dated, "clicked", G_CALLBACK (dated_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_set_visible (self->dated, FALSE);
  gtk_widget_set_halign (self->dated, GTK_ALIGN_START);
  cro_wrap_append (CRO_WRAP (row), use);
  cro_wrap_append (CRO_WRAP (row), cro_caption_new (_("They are remembered for this supplier."), 0));
  self->sheet_row = cro_wrap_new (9, 6);
  self->sheet = cro_drop_down_new_model (NULL, _("Sheet of the workbook"));
  g_signal_connect_object (self->sheet, "notify::selected", G_CALLBACK (sheet_cb), self, G_CONNECT_SWAPPED);
  cro_wrap_append (CRO_WRAP (self->sheet_row), gtk_label_new (_("Sheet of the workbook")));
  cro_wrap_append (CRO_WRAP (self->sheet_row), self->sheet);
  gtk_box_append (GTK_BOX (self->columns_box), self->sheet_row);
  gtk_box_append (GTK_BOX (self->columns_box), cro_text_new (_("What does each column of the list hold?"), NULL));
  gtk_box_append (GTK_BOX (self->columns_box), scroller);
  gtk_box_append (GTK_BOX (self->columns_box), row);
  gtk_widget_set_visible (self->columns_box, FALSE);
  gtk_box_append (GTK_BOX (outer), self->dated);
  gtk_box_append (GTK_BOX (outer), self->columns_box);
  return outer;
}
