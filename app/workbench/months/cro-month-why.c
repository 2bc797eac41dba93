#include "config.h"

#include "cro-month-why.h"

#include <glib/gi18n.h>

#include "cro-box.h"
#include "cro-chart-area.h"
#include "cro-field.h"
#include "cro-focus.h"
#include "cro-isolate.h"
#include "cro-month-bridge-words.h"
#include "cro-month-pictures.h"
#include "cro-month-table-view.h"
#include "cro-month-words.h"

/* Rows that are read at once, and the others as one. */
#define MOST_ROWS 15

struct _CroMonthWhy
{
  GtkWidget   parent_instance;

  GtkWidget  *box;
  GtkWidget  *none;       /* why nothing is compared */
  GtkWidget  *close;      /* what is to be done first: this month is closed, … */
  GtkWidget  *open;       /* … the other opened, to close it */
  GtkWidget  *told;
  GtkWidget  *words;
  GtkWidget  *steps;
  GtkWidget  *by;         /* by which effect ingredients stand in order */
  GtkWidget  *items;
  GtkWidget  *things;
  GtkWidget  *picture;

  /* What moved most by each effect, and by all of them; NULL: nothing is compared. The shelf may reckon
   * its months anew meanwhile. */
  CroMonthTable *item_rows[CRO_N_BRIDGE_EFFECTS + 1];
  CroMonthTable *thing_rows[CRO_N_BRIDGE_EFFECTS + 1];
  guint          effect;  /* CRO_N_BRIDGE_EFFECTS: by all of them */
};

G_DEFINE_FINAL_TYPE (CroMonthWhy, cro_month_why, GTK_TYPE_WIDGET)

static void
draw_bars (gpointer            waterfall,
           cairo_t            *cairo,
           const CroChartLook *look,
           double              width,
           double              height)
{
  cro_waterfall_draw (waterfall, cairo, look, width);
}

/* --- Showing -------------------------------------------------------------------------------- */

static void
put_words (CroMonthWhy          *self,
           const CroMonthBridge *bridge)
{
  g_autoptr (GPtrArray) words = cro_month_bridge_words (bridge);

  cro_box_clear (self->words);
  for (guint i = 0; i < words->len; i++)
    gtk_box_append (GTK_BOX (self->words), cro_text_new (words->pdata[i], i == 0 ? "title-4" : NULL));
}

static void
clear_rows (CroMonthWhy *self)
{
  for (guint by = 0; by <= CRO_N_BRIDGE_EFFECTS; by++)
    {
      g_clear_pointer (&self->item_rows[by], cro_month_table_free);
      g_clear_pointer (&self->thing_rows[by], cro_month_table_free);
    }
}

static void
take_rows (CroMonthWhy          *self,
           const CroMonthBridge *bridge)
{
  for (guint by = 0; by <= CRO_N_BRIDGE_EFFECTS; by++)
    {
      self->item_rows[by] = cro_month_bridge_table (bridge, bridge->items, by, MOST_ROWS);
      self->thing_rows[by] = cro_month_bridge_table (bridge, bridge->things, by, MOST_ROWS);
    }
}

static void
put_rows (CroMonthWhy *self)
{
  g_autofree char *by = self->effect < CRO_N_BRIDGE_EFFECTS
                            /* Translators: an effect, "price". */
                            ? g_strdup_printf (_("What moved it most, by %s"),
                                               cro_bridge_effect_name (self->effect))
                            : g_strdup (_("What moved it most"));

  gtk_label_set_label (GTK_LABEL (self->by), by);
  cro_month_table_view_set (CRO_MONTH_TABLE_VIEW (self->items), self->item_rows[self->effect]);
  cro_month_table_view_set (CRO_MONTH_TABLE_VIEW (self->things), self->thing_rows[self->effect]);
}

static char *
dup_why_none (const CroMonth *from,
              const CroMonth *to)
{
  const CroMonth *open = !to->is_closed ? to : from;
  g_autofree char *name = open != NULL ? cro_month_to_text (open->first) : NULL;
  g_autofree char *other = from != NULL ? cro_month_to_text (from->first) : NULL;

  if (from == NULL)
    return g_strdup (_("Choose a closed month to compare with, at the top of the page."));
  if (!to->is_closed && !from->is_closed)
    /* Translators: two months. */
    return cro_isolate_printf (_("Only closed months are compared, as others still move. %s and %s are open."), name,
                               other);
  /* Translators: a month. */
  return cro_isolate_printf (_("Only closed months are compared, as others still move. %s is open."), name);
}

/* A month that was just closed is told of only when it is reckoned: what offered to close it hands on the focus before
 * it goes, and while there is nothing the page itself has it. */
static void
show_button (CroMonthWhy *self,
             GtkWidget   *button,
             GtkWidget   *other,
             gboolean     is_shown)
{
  if (!is_shown && gtk_widget_is_focus (button) && !cro_focus_first (other) && !cro_focus_first (self->told))
    {
      gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
      gtk_widget_grab_focus (GTK_WIDGET (self));
    }
  gtk_widget_set_visible (button, is_shown);
}

/* What is to be done first. */
static void
offer (CroMonthWhy    *self,
       const CroMonth *from,
       const CroMonth *to)
{
  gboolean has_to = to != NULL && !to->is_closed, has_from = to != NULL && from != NULL && !from->is_closed;
  g_autofree char *name = has_to ? cro_month_to_text (to->first) : NULL;
  g_autofree char *other = has_from ? cro_month_to_text (from->first) : NULL;
  /* Translators: a month. */
  g_autofree char *close = has_to ? cro_isolate_printf (_("Close %s…"), name) : NULL;
  /* Translators: a month. */
  g_autofree char *open = has_from ? cro_isolate_printf (_("Open %s"), other) : NULL;

  gtk_button_set_label (GTK_BUTTON (self->close), close != NULL ? close : "");
  gtk_button_set_label (GTK_BUTTON (self->open), open != NULL ? open : "");
  show_button (self, self->close, self->open, has_to);
  show_button (self, self->open, self->close, has_from);
  if (gtk_widget_is_focus (GTK_WIDGET (self)) && cro_focus_first (self->box))
    gtk_widget_set_focusable (GTK_WIDGET (self), FALSE);
}

void
cro_month_why_set (CroMonthWhy    *self,
                   const CroMonth *from,
                   const CroMonth *to)
{
  gboolean is_told = from != NULL && from->is_closed && to->is_closed;
  g_autofree char *none = is_told ? NULL : dup_why_none (from, to);
  g_autoptr (CroMonthBridge) bridge = NULL;
  g_autoptr (CroMonthTable) steps = NULL;
  CroWaterfall *waterfall;

  clear_rows (self);
  gtk_label_set_label (GTK_LABEL (self->none), none != NULL ? none : "");
  gtk_widget_set_visible (self->none, !is_told);
  gtk_widget_set_visible (self->told, is_told);
  if (!is_told)
    {
      offer (self, from, to);
      return;
    }
  bridge = cro_month_bridge_new (from, to);
  put_words (self, bridge);
  steps = cro_month_bridge_steps (bridge);
  cro_month_table_view_set (CRO_MONTH_TABLE_VIEW (self->steps), steps);
  take_rows (self, bridge);
  put_rows (self);
  waterfall = cro_month_bridge_waterfall (bridge);
  cro_chart_area_take (self->picture, waterfall, (GDestroyNotify) cro_waterfall_free,
                       cro_waterfall_height (waterfall, &(CroChartLook){ .font = 1 }));
  offer (self, from, to);
}

/* An effect opens to what it moved; a second time, to all. */
static void
effect_cb (CroMonthWhy *self,
           int          line,
           const char  *name)
{
  if (self->item_rows[0] == NULL)
    return;
  self->effect = self->effect == (guint) line ? CRO_N_BRIDGE_EFFECTS : (guint) line;
  put_rows (self);
}

/* --- The widget ----------------------------------------------------------------------------- */

static void
cro_month_why_dispose (GObject *object)
{
  CroMonthWhy *self = CRO_MONTH_WHY (object);

  clear_rows (self);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_month_why_parent_class)->dispose (object);
}

static void
cro_month_why_class_init (CroMonthWhyClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_month_why_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static gboolean
opens_never (int line)
{
  return FALSE;
}

static void
add_part (CroMonthWhy *self,
          GtkWidget   *part)
{
  gtk_widget_add_css_class (part, "part");
  gtk_box_append (GTK_BOX (self->told), part);
}

static void
cro_month_why_init (CroMonthWhy *self)
{
  self->effect = CRO_N_BRIDGE_EFFECTS;
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  self->told = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  self->none = cro_text_new ("", "title-4");
  self->words = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);
  self->steps = cro_month_table_view_new (_("Effects; Enter shows what each moved"), NULL);
  g_signal_connect_object (self->steps, "opened", G_CALLBACK (effect_cb), self, G_CONNECT_SWAPPED);
  self->by = cro_heading_new ("");
  self->items = cro_month_table_view_new (_("Ingredients"), opens_never);
  self->things = cro_month_table_view_new (_("Plates and menus"), opens_never);
  self->picture = cro_chart_area_new (_("Bars from the one month’s theoretical food cost to the other’s, as in the "
                                        "table of effects"),
                                      draw_bars);
  self->close = gtk_button_new ();
  self->open = gtk_button_new ();
  gtk_actionable_set_action_name (GTK_ACTIONABLE (self->close), "month.close");
  gtk_actionable_set_action_name (GTK_ACTIONABLE (self->open), "month.other");
  gtk_widget_set_halign (self->close, GTK_ALIGN_START);
  gtk_widget_set_halign (self->open, GTK_ALIGN_START);
  gtk_box_append (GTK_BOX (self->box), self->none);
  gtk_box_append (GTK_BOX (self->box), self->close);
  gtk_box_append (GTK_BOX (self->box), self->open);
  gtk_box_append (GTK_BOX (self->box), self->told);
  gtk_box_append (GTK_BOX (self->told), self->words);
  add_part (self, self->steps);
  gtk_box_append (GTK_BOX (self->told), self->by);
  add_part (self, self->items);
  add_part (self, self->things);
  gtk_box_append (GTK_BOX (self->told), self->picture);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
}

GtkWidget *
cro_month_why_new (void)
{
  return g_object_new (CRO_TYPE_MONTH_WHY, NULL);
}
