/* cro-field.h: what all benches are set from: fields with their captions, headings, texts. */
#pragma once

#include "cro-cause.h"
#include "cro-input.h"

G_BEGIN_DECLS

/* A word or two over what they are of. */
GtkWidget *cro_caption_new   (const char   *text,
                              float         xalign);

/* A caption over a control, which has its own accessible name. */
GtkWidget *cro_field_new     (const char   *caption,
                              GtkWidget    *control);

/* A row of fields that breaks where the width ends: a part that F6 leads to. */
GtkWidget *cro_field_row_new (void);

/* Puts an input with its caption into a row, and returns the input. width in characters. */
GtkWidget *cro_field_add     (GtkWidget    *row,
                              const char   *caption,
                              CroInputKind  kind,
                              CroRange      range,
                              int           width);

GtkWidget *cro_heading_new   (const char   *text);

/* A text that wraps; css_class may be NULL. */
GtkWidget *cro_text_new      (const char   *text,
                              const char   *css_class);

/* No line of a label that wraps, whatever it says, is broken between a number and its unit or month. */
void       cro_text_keep_units (GtkWidget  *label);

/* A number, digits under digits at the right. */
GtkWidget *cro_number_label_new   (void);

/* Makes a label one of a number with its unit: digits of one width, in their order everywhere. */
void       cro_number_label_setup (GtkWidget *label);

/* An entry that belongs to no row of the book yet; name: its accessible name. */
GtkWidget *cro_entry_new     (const char   *name,
                              int           width);

/* An entry to search with, which Escape empties before it does anything else; name: its accessible name. */
GtkWidget *cro_search_new    (const char   *name);

/* Puts a text where the cursor of an entry is, over what is selected, as a paste does. */
void       cro_entry_insert  (GtkWidget    *entry,
                              const char   *text);

/* A text that nobody typed: it is not undone, and keeps Ctrl+Z from the book only once it is changed. */
void       cro_entry_put     (GtkWidget    *entry,
                              const char   *text);
gboolean   cro_entry_is_put  (GtkWidget    *entry);

/* What entries beside it come to, said as they are typed. */
GtkWidget *cro_meaning_new   (void);

/* A button behind entries that have captions. */
GtkWidget *cro_entry_button_new (const char *label,
                              GCallback     clicked,
                              gpointer      object);

/* What is no cause of an incomplete cost, and is asked for all the same. */
#define CRO_CAUSE_SELLING_PRICE (CRO_CAUSE_CREDIT + 1)
#define CRO_CAUSE_TAX           (CRO_CAUSE_CREDIT + 2)

/* Whether what is missing of the thing is entered here, by its cause: one of CroCauseKind. The focus
 * of those who came for that goes to the first of them. */
void        cro_cure_set     (GtkWidget    *control,
                              int           cause,
                              gboolean      is_cure);

/* The class that marks it; "cure" marks all. */
const char *cro_cure_class   (int           cause);

/* A scrolled window within a page: what it cannot move up or down any further a wheel moves of the page. */
void        cro_wheel_share  (GtkWidget    *scroller);

/* A table that scrolls sideways by itself, so that what stands around it keeps its width; up and down
 * with all around it. */
GtkWidget *cro_wide_new      (GtkWidget    *table);

/* A page that scrolls up and down where its least height is more than there is: a stack would give it that in width
 * instead. */
GtkWidget *cro_low_new       (GtkWidget    *page);

/* A bar of a part of a whole, 0 to 1, of one colour. */
GtkWidget *cro_part_bar_new  (const char   *name,
                              int           width);

/* A button with the name of a thing, which leads there: a long name ends in an ellipsis. */
GtkWidget *cro_name_button_new (void);
void       cro_name_button_set (GtkWidget  *button,
                                const char *name);

/* The same at the head of a row of wide columns, which would leave a name its ellipsis alone: it breaks into two
 * lines, of which least characters are read, and the table is moved sideways. */
void       cro_name_button_set_first (GtkWidget  *button,
                                      const char *name,
                                      int         least);

/* Whether what is pressed now is the second press of a double click: it answers nothing that the first one asked,
 * at asked_usec of the monotonic time. */
gboolean   cro_is_double_press    (GtkWidget  *widget,
                                   gint64      asked_usec);

/* A button that is an icon to the eye and a name to all else. */
GtkWidget *cro_icon_button_new (const char *icon,
                              const char   *name);
void       cro_icon_button_set_name (GtkWidget *button,
                              const char   *name);

/* A button for a menu of what can be done with a thing; name tells of which. */
GtkWidget *cro_more_button_new (GMenuModel   *menu,
                              const char   *name);

G_END_DECLS
