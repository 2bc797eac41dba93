#include "config.h"

#include "cro-bench.h"

#include <glib/gi18n.h>

#include "cro-bench-actions.h"
#include "cro-card-window.h"
#include "cro-draft.h"
#include "cro-field.h"
#include "cro-headed.h"
#include "cro-isolate.h"
#include "cro-later.h"
#include "cro-refused-words.h"

typedef struct
{
  CroBook *book;
  gulong   changed_id;
  guint32  slot;
  char    *named;     /* what stands on the bench, as its fields call it */
  GtkWidget *page;
  GtkWidget *cover;   /* NULL: there is none */
  GPtrArray *deferred; /* Deferred: borrowed, each its source's */
} CroBenchPrivate;

G_DEFINE_ABSTRACT_TYPE_WITH_PRIVATE (CroBench, cro_bench, GTK_TYPE_WIDGET)

enum
{
  OPEN_REF,
  SAY,
  NOTE,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

static const char *
name_of (CroBench *self)
{
  return cro_ref_name (cro_book_get_model (cro_bench_get_book (self)), cro_bench_get_ref (self));
}

/* Fields and their acts bear the name of the thing, and are called anew under another; what is
 * typed in them stays. */
static void
put_again (CroBench *self)
{
  g_autoptr (GHashTable) texts = cro_draft_list (GTK_WIDGET (self));

  cro_bench_put (self, cro_bench_get_slot (self));
  cro_draft_put (GTK_WIDGET (self), texts);
}

static void
book_changed_cb (CroBench *self)
{
  CroBenchPrivate *priv = cro_bench_get_instance_private (self);

  if (priv->slot == CRO_NO_SLOT || !gtk_widget_get_mapped (GTK_WIDGET (self)))
    return;
  if (g_strcmp0 (name_of (self), priv->named) != 0)
    put_again (self);
  else
    CRO_BENCH_GET_CLASS (self)->refresh (self);
}

/* What is not on the screen is written when it comes back to it. */
static void
cro_bench_map (GtkWidget *widget)
{
  CroBench *self = CRO_BENCH (widget);
  CroBenchPrivate *priv = cro_bench_get_instance_private (self);

  GTK_WIDGET_CLASS (cro_bench_parent_class)->map (widget);
  if (priv->book != NULL && priv->slot != CRO_NO_SLOT)
    CRO_BENCH_GET_CLASS (self)->refresh (self);
}

/* --- What waits for the main loop --------------------------------------------------------------- */

typedef struct
{
  GPtrArray  *all;       /* in which it stands while it waits */
  guint       source;
  guint      *id;        /* the asker's */
  GSourceFunc func;
  gpointer    user_data;
} Deferred;

static void
deferred_free (gpointer user_data)
{
  Deferred *deferred = user_data;

  g_ptr_array_remove_fast (deferred->all, deferred);
  g_ptr_array_unref (deferred->all);
  g_free (deferred);
}

static gboolean
deferred_cb (gpointer user_data)
{
  Deferred *deferred = user_data;

  return deferred->func (deferred->user_data);
}

static void
drop_deferred (CroBenchPrivate *priv)
{
  while (priv->deferred->len > 0)
    {
      Deferred *deferred = priv->deferred->pdata[0];

      *deferred->id = 0;
      g_source_remove (deferred->source);
    }
}

static void
cro_bench_dispose (GObject *object)
{
  CroBenchPrivate *priv = cro_bench_get_instance_private (CRO_BENCH (object));

  g_clear_pointer (&priv->cover, gtk_widget_unparent);
  g_clear_pointer (&priv->page, gtk_widget_unparent);
  g_clear_pointer (&priv->named, g_free);
  cro_bench_set_book (CRO_BENCH (object), NULL);
  G_OBJECT_CLASS (cro_bench_parent_class)->dispose (object);
}

static void
cro_bench_finalize (GObject *object)
{
  CroBenchPrivate *priv = cro_bench_get_instance_private (CRO_BENCH (object));

  g_ptr_array_unref (priv->deferred);
  G_OBJECT_CLASS (cro_bench_parent_class)->finalize (object);
}

static void
cro_bench_class_init (CroBenchClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_bench_dispose;
  G_OBJECT_CLASS (klass)->finalize = cro_bench_finalize;
  GTK_WIDGET_CLASS (klass)->map = cro_bench_map;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);

  cro_bench_install_actions (GTK_WIDGET_CLASS (klass));

  signals[OPEN_REF] = g_signal_new ("open-ref", CRO_TYPE_BENCH, G_SIGNAL_RUN_LAST, 0, NULL,
                                    NULL, NULL, G_TYPE_NONE, 3, G_TYPE_INT, G_TYPE_UINT,
                                    G_TYPE_INT);
  signals[SAY] = g_signal_new ("say", CRO_TYPE_BENCH, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                               G_TYPE_NONE, 1, G_TYPE_STRING);
  signals[NOTE] = g_signal_new ("note", CRO_TYPE_BENCH, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                G_TYPE_NONE, 3, G_TYPE_STRING, G_TYPE_STRING, GTK_TYPE_WIDGET);
}

static void
cro_bench_init (CroBench *self)
{
  CroBenchPrivate *priv = cro_bench_get_instance_private (self);

  priv->slot = CRO_NO_SLOT;
  priv->deferred = g_ptr_array_new ();
}

void
cro_bench_defer (CroBench   *self,
                 guint      *id,
                 int         priority,
                 GSourceFunc func,
                 gpointer    user_data)
{
  CroBenchPrivate *priv = cro_bench_get_instance_private (self);
  Deferred *deferred;

  if (*id != 0)
    return;
  deferred = g_new (Deferred, 1);
  *deferred = (Deferred){ g_ptr_array_ref (priv->deferred), 0, id, func, user_data };
  g_ptr_array_add (priv->deferred, deferred);
  *id = deferred->source = g_idle_add_full (priority, deferred_cb, deferred, deferred_free);
}

void
cro_bench_set_book (CroBench *self,
                    CroBook  *book)
{
  CroBenchPrivate *priv = cro_bench_get_instance_private (self);

  if (priv->book == book)
    return;
  cro_bench_set_cover (self, NULL);
  drop_deferred (priv);
  if (priv->book != NULL)
    g_clear_signal_handler (&priv->changed_id, priv->book);
  g_set_object (&priv->book, book);
  priv->slot = CRO_NO_SLOT;
  if (book == NULL)
    return;
  cro_later_begin (book);
  priv->changed_id = g_signal_connect_object (book, "changed", G_CALLBACK (book_changed_cb), self,
                                              G_CONNECT_SWAPPED);
}

CroBook *
cro_bench_get_book (CroBench *self)
{
  CroBenchPrivate *priv = cro_bench_get_instance_private (self);

  return priv->book;
}

void
cro_bench_put (CroBench *self,
               guint32   slot)
{
  CroBenchPrivate *priv = cro_bench_get_instance_private (self);

  if (slot != priv->slot)
    cro_bench_set_cover (self, NULL);
  priv->slot = slot;
  g_free (priv->named);
  priv->named = slot != CRO_NO_SLOT ? g_strdup (name_of (self)) : NULL;
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "bench.print",
                                 cro_card_window_can_show (cro_bench_get_ref (self)));
  CRO_BENCH_GET_CLASS (self)->show (self);
}

guint32
cro_bench_get_slot (CroBench *self)
{
  CroBenchPrivate *priv = cro_bench_get_instance_private (self);

  return priv->slot;
}

CroRef
cro_bench_get_ref (CroBench *self)
{
  return CRO_REF (CRO_BENCH_GET_CLASS (self)->kind, cro_bench_get_slot (self));
}

char *
cro_act_dup_label (const char *of_what,
                   const char *name)
{
  /* Translators: an entry of the history: a field's name, and the thing it belongs to. */
  return cro_isolate_printf (_("%s of %s"), of_what, name);
}

char *
cro_act_dup_addition (const char *name)
{
  /* Translators: an act, "addition of" the name of what was made. */
  return cro_act_dup_label (_("addition"), name);
}

char *
cro_bench_dup_label (CroBench   *self,
                     const char *of_what)
{
  return cro_act_dup_label (of_what, cro_ref_name (cro_book_get_model (cro_bench_get_book (self)),
                                                   cro_bench_get_ref (self)));
}

void
cro_bench_open (CroBench *self,
                CroRef    ref)
{
  cro_bench_open_cure (self, ref, CRO_NO_CAUSE);
}

void
cro_bench_open_cure (CroBench *self,
                     CroRef    ref,
                     int       cause)
{
  g_signal_emit (self, signals[OPEN_REF], 0, (int) ref.kind, ref.slot, cause);
}

void
cro_bench_say (CroBench   *self,
               const char *text)
{
  g_signal_emit (self, signals[SAY], 0, text);
}

void
cro_bench_fail (CroBench     *self,
                const GError *error)
{
  g_autofree char *text = cro_words_failed (error);

  cro_bench_say (self, text);
}

void
cro_bench_set_content (CroBench  *self,
                       GtkWidget *head,
                       GtkWidget *content)
{
  CroBenchPrivate *priv = cro_bench_get_instance_private (self);

  gtk_widget_add_css_class (head, "bench-head");
  gtk_widget_add_css_class (content, "bench");
  priv->page = cro_headed_new (head, content);
  gtk_widget_set_parent (priv->page, GTK_WIDGET (self));
}

void
cro_bench_note (CroBench   *self,
                const char *note,
                const char *details,
                GtkWidget  *leads_to)
{
  g_signal_emit (self, signals[NOTE], 0, note, details, leads_to);
}

void
cro_bench_set_page (CroBench  *self,
                    GtkWidget *page)
{
  CroBenchPrivate *priv = cro_bench_get_instance_private (self);

  gtk_widget_add_css_class (page, "bench");
  priv->page = page;
  gtk_widget_set_parent (page, GTK_WIDGET (self));
}

void
cro_bench_set_cover (CroBench  *self,
                     GtkWidget *cover)
{
  CroBenchPrivate *priv = cro_bench_get_instance_private (self);

  if (priv->cover == NULL && cover == NULL)
    return;
  g_clear_pointer (&priv->cover, gtk_widget_unparent);
  for (GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self)); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (!GTK_IS_POPOVER (child))
      gtk_widget_set_visible (child, cover == NULL);
  priv->cover = cover;
  if (cover != NULL)
    gtk_widget_set_parent (cover, GTK_WIDGET (self));
}
