/* cro-entry-form.h: entries that belong to no row of the book yet, a button that makes one of
 * them, and over the entry at fault, which is marked, why none was made. Nothing that was typed is lost.
 *
 * A template gives it its fields, each with a caption, as children.
 *
 * Properties "button": what the button says.
 * Signals    "entered": the button was pressed, or Enter in an entry. */
#pragma once

#include <gtk/gtk.h>

#include "cro-date.h"

G_BEGIN_DECLS

#define CRO_TYPE_ENTRY_FORM (cro_entry_form_get_type ())
G_DECLARE_FINAL_TYPE (CroEntryForm, cro_entry_form, CRO, ENTRY_FORM, GtkWidget)

/* button: what it says. */
GtkWidget  *cro_entry_form_new     (const char     *button);

/* An entry under its caption; placeholder may be NULL. */
GtkWidget  *cro_entry_form_add     (CroEntryForm   *self,
                                    const char     *caption,
                                    const char     *name,
                                    int             width,
                                    const char     *placeholder);
/* Another control under its caption. */
void        cro_entry_form_add_control (CroEntryForm *self,
                                    const char     *caption,
                                    GtkWidget      *control);

/* The text of an entry of a form. Borrowed. */
const char *cro_entry_form_text    (GtkWidget      *entry);

/* The date of an entry; where it is empty *date stays. Refuses what is no date. */
gboolean    cro_entry_form_date    (CroEntryForm   *self,
                                    GtkWidget      *entry,
                                    CroDate        *date);

/* Says why nothing was made, and goes to the entry at fault. Returns FALSE. */
gboolean    cro_entry_form_refuse  (CroEntryForm   *self,
                                    GtkWidget      *entry,
                                    const char     *reason);

/* Takes back what was refused. */
void        cro_entry_form_accept  (CroEntryForm   *self);

/* Empties all entries. */
void        cro_entry_form_clear   (CroEntryForm   *self);

/* For what is not taken back with a key: Enter in a field leads to the button, and only that or Ctrl+Enter
 * enters. */
void         cro_entry_form_leave_to_button (CroEntryForm *self);

G_END_DECLS
