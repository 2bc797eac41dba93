#include "config.h"

#include "cro-avoid-entry.h"

#include <glib/gi18n.h>

#include "cro-allergen-words.h"
#include "cro-field.h"
#include "cro-focus.h"
#include "cro-spoken.h"
#include "cro-wrap.h"

struct _CroAvoidEntry
{
  GtkWidget          parent_instance;

  GtkWidget         *row;        /* the caption, what is avoided, the line, the menu */
  GtkWidget         *entry;
  GtkWidget         *meaning;    /* what is typed comes to */
  GMenu             *menu;

  CroAllergenListId  list;
  guint32            avoids;
  GtkWidget         *chips[CRO_N_ALLERGENS];   /* NULL: not avoided */
};

G_DEFINE_FINAL_TYPE (CroAvoidEntry, cro_avoid_entry, GTK_TYPE_WIDGET)

static guint changed_signal;

/* --- What is avoided ------------------------------------------------------------------------------ */

static void
say (CroAvoidEntry *self,
     const char    *text)
{
  gtk_label_set_label (GTK_LABEL (self->meaning), text);
}

static void
drop_cb (CroAvoidEntry *self,
         GtkWidget     *chip)
{
  guint entry = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (chip), "entry"));

  gtk_widget_activate_action (GTK_WIDGET (self), "avoid.toggle", "u", entry);
  gtk_widget_grab_focus (self->entry);
}

static GtkWidget *
chip_new (CroAvoidEntry *self,
          guint          entry)
{
  const char *name = cro_words_allergen (self->list, entry);
  g_autofree char *label = g_strdup_printf ("%s ×", name);
  /* Translators: %s is an allergen that a guest avoids. */
  g_autofree char *said = g_strdup_printf (_("Take away: %s"), name);
  GtkWidget *chip = gtk_button_new_with_label (label);

  g_object_set_data (G_OBJECT (chip), "entry", GUINT_TO_POINTER (entry));
  cro_spoken_set (chip, said);
  gtk_widget_set_tooltip_text (chip, said);
  g_signal_connect_object (chip, "clicked", G_CALLBACK (drop_cb), self, G_CONNECT_SWAPPED);
  return chip;
}

/* Behind the caption, in the order of the list; those that stay are kept. */
static void
show_chips (CroAvoidEntry *self)
{
  GtkWidget *after = gtk_widget_get_first_child (self->row);

  for (guint i = 0; i < CRO_N_ALLERGENS; i++)
    {
      gboolean is_avoided = (self->avoids & (1u << i)) != 0;

      if (is_avoided && self->chips[i] == NULL)
        self->chips[i] = chip_new (self, i);
      else if (!is_avoided && self->chips[i] != NULL)
        g_clear_pointer (&self->chips[i], gtk_widget_unparent);
      if (self->chips[i] == NULL)
        continue;
      cro_wrap_insert_after (CRO_WRAP (self->row), self->chips[i], after);
      after = self->chips[i];
    }
}

static void
set_avoids (CroAvoidEntry *self,
            guint32        avoids)
{
  if (avoids == self->avoids)
    return;
  self->avoids = avoids;
  show_chips (self);
  g_signal_emit (self, changed_signal, 0);
}

static void
toggle_cb (GtkWidget  *widget,
           const char *action,
           GVariant   *parameter)
{
  CroAvoidEntry *self = CRO_AVOID_ENTRY (widget);
  guint entry = g_variant_get_uint32 (parameter);

  if (entry < cro_allergen_list (self->list)->n)
    set_avoids (self, self->avoids ^ (1u << entry));
}

/* --- What is typed -------------------------------------------------------------------------------- */

static gboolean
is_one (guint32 found)
{
  return found != 0 && (found & (found - 1)) == 0;
}

static void
typed_cb (CroAvoidEntry *self)
{
  const char *typed = gtk_editable_get_text (GTK_EDITABLE (self->entry));
  guint32 found = cro_words_find_allergens (self->list, typed);
  g_autofree char *names = cro_words_allergens_of (self->list, found);
  g_autofree char *text = NULL;

  if (*typed == '\0')
    text = g_strdup ("");
  else if (found == 0)
    text = g_strdup (_("No allergen of this list begins so."));
  else if (is_one (found))
    /* Translators: an allergen. */
    text = g_strdup_printf (_("%s: press Enter"), names);
  else
    /* Translators: several allergens. */
    text = g_strdup_printf (_("%s: type more letters"), names);
  say (self, text);
}

static void
activate_cb (CroAvoidEntry *self)
{
  guint32 found = cro_words_find_allergens (self->list,
                                            gtk_editable_get_text (GTK_EDITABLE (self->entry)));

  typed_cb (self);
  if (!is_one (found))
    return;
  gtk_editable_set_text (GTK_EDITABLE (self->entry), "");
  set_avoids (self, self->avoids | found);
}

/* Before the first letter it takes the last one away. */
static gboolean
key_pressed_cb (CroAvoidEntry   *self,
                guint            keyval,
                guint            keycode,
                GdkModifierType  state)
{
  if (keyval != GDK_KEY_BackSpace || self->avoids == 0
      || *gtk_editable_get_text (GTK_EDITABLE (self->entry)) != '\0')
    return GDK_EVENT_PROPAGATE;
  set_avoids (self, self->avoids & ~(1u << (31 - __builtin_clz (self->avoids))));
  return GDK_EVENT_STOP;
}

/* --- The list ------------------------------------------------------------------------------------- */

static void
offer_all (CroAvoidEntry *self)
{
  g_menu_remove_all (self->menu);
  for (guint i = 0; i < cro_allergen_list (self->list)->n; i++)
    {
      g_autoptr (GMenuItem) item = g_menu_item_new (cro_words_allergen (self->list, i), NULL);

      g_menu_item_set_action_and_target (item, "avoid.toggle", "u", i);
      g_menu_append_item (self->menu, item);
    }
}

/* Entries of the new list that are all of an old one. */
static guint32
carry_over (CroAvoidEntry     *self,
            CroAllergenListId  list,
            guint32           *lost)
{
  const CroAllergenList *before = cro_allergen_list (self->list), *now = cro_allergen_list (list);
  guint32 kept = 0;

  *lost = 0;
  for (guint i = 0; i < before->n; i++)
    {
      guint32 same = 0;

      if ((self->avoids & (1u << i)) == 0)
        continue;
      for (guint k = 0; k < now->n; k++)
        if (now->entries[k].same != 0 && now->entries[k].same == before->entries[i].same)
          same |= 1u << k;
      kept |= same;
      *lost |= same == 0 ? 1u << i : 0;
    }
  return kept;
}

void
cro_avoid_entry_set_list (CroAvoidEntry     *self,
                          CroAllergenListId  list)
{
  guint32 lost, kept = carry_over (self, list, &lost);
  g_autofree char *names = cro_words_allergens_of (self->list, lost);
  /* Translators: allergens. */
  g_autofree char *text = lost != 0 ? g_strdup_printf (_("Not on this list: %s"), names) : g_strdup ("");

  self->avoids = 0;
  show_chips (self);
  self->list = list;
  self->avoids = kept;
  show_chips (self);
  offer_all (self);
  gtk_editable_set_text (GTK_EDITABLE (self->entry), "");
  say (self, text);
  g_signal_emit (self, changed_signal, 0);
}

guint32
cro_avoid_entry_get (CroAvoidEntry *self)
{
  return self->avoids;
}

GtkWidget *
cro_avoid_entry_get_meaning (CroAvoidEntry *self)
{
  return self->meaning;
}

void
cro_avoid_entry_type (CroAvoidEntry *self,
                      gunichar       sign)
{
  cro_focus_type (self->entry, sign);
}

/* --- The widget ----------------------------------------------------------------------------------- */

static gboolean
cro_avoid_entry_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (CRO_AVOID_ENTRY (widget)->entry);
}

static void
cro_avoid_entry_dispose (GObject *object)
{
  CroAvoidEntry *self = CRO_AVOID_ENTRY (object);

  g_clear_pointer (&self->row, gtk_widget_unparent);
  g_clear_object (&self->meaning);
  g_clear_object (&self->menu);
  G_OBJECT_CLASS (cro_avoid_entry_parent_class)->dispose (object);
}

static void
cro_avoid_entry_class_init (CroAvoidEntryClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_avoid_entry_dispose;
  widget_class->grab_focus = cro_avoid_entry_grab_focus;
  widget_class->focus = cro_focus_within;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_install_action (widget_class, "avoid.toggle", "u", toggle_cb);
  changed_signal = g_signal_new ("changed", CRO_TYPE_AVOID_ENTRY, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                 G_TYPE_NONE, 0);
}

static GtkWidget *
more_new (CroAvoidEntry *self)
{
  GtkWidget *button = gtk_menu_button_new ();

  self->menu = g_menu_new ();
  gtk_menu_button_set_icon_name (GTK_MENU_BUTTON (button), "list-add-symbolic");
  gtk_menu_button_set_menu_model (GTK_MENU_BUTTON (button), G_MENU_MODEL (self->menu));
  cro_spoken_set (button, _("Choose what a guest avoids"));
  return button;
}

static void
cro_avoid_entry_init (CroAvoidEntry *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  self->row = cro_wrap_new (6, 6);
  cro_wrap_append (CRO_WRAP (self->row), gtk_label_new (_("A guest avoids:")));
  self->entry = cro_entry_new (_("A guest avoids: type an allergen"), 12);
  /* Translators: an example of the first letters of an allergen. */
  gtk_entry_set_placeholder_text (GTK_ENTRY (self->entry), _("mol, mil …"));
  g_signal_connect_object (self->entry, "changed", G_CALLBACK (typed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->entry, "activate", G_CALLBACK (activate_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (keys, "key-pressed", G_CALLBACK (key_pressed_cb), self, G_CONNECT_SWAPPED);
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  gtk_widget_add_controller (self->entry, keys);
  cro_wrap_append (CRO_WRAP (self->row), self->entry);
  cro_wrap_append (CRO_WRAP (self->row), more_new (self));
  self->meaning = g_object_ref_sink (cro_meaning_new ());
  gtk_widget_set_parent (self->row, GTK_WIDGET (self));
  offer_all (self);
}

GtkWidget *
cro_avoid_entry_new (void)
{
  return g_object_new (CRO_TYPE_AVOID_ENTRY, NULL);
}
