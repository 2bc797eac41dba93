/* cro-new-name.h: a new name while it is typed: where it will stand, in a sentence under its field,
 * and all of it in a window (F2), from which the name is kept. */
#pragma once

#include <adwaita.h>

#include "cro-input.h"
#include "cro-ref.h"

G_BEGIN_DECLS

/* Ahead of the keys, none of which asks the store then. */
void  cro_new_name_look (CroInput   *input,
                         CroRef      ref);

/* Where the thing's name stands, of which input is the field; NULL: nowhere else, or name is none, or no
 * other. Owned. */
char *cro_new_name_tell (CroInput   *input,
                         CroRef      ref,
                         const char *name);

/* failed: why the name of what is made was refused. It may be that of an ingredient, which was meant to be made: the
 * error then names what leads there. */
void  cro_new_name_refuse (CroBook    *book,
                           const char *name,
                           GError     *failed,
                           GError    **error);

/* What that says while the name is typed. Owned. */
char *cro_new_name_tell_refused (CroBook *book,
                                 CroRef   bearer);

/* Where it stands by kind alone, "2 packs: Milk, Butter; 4 purchases"; NULL: nowhere. Owned. */
char *cro_new_name_places (CroInput *input,
                           CroRef    ref);

/* Opens the window: Enter keeps the name, Escape leads back to the field with what is typed. */
void  cro_new_name_show (CroInput   *input,
                         CroRef      ref,
                         const char *name);

/* The same where another one bears the name and all moves to it; what moves otherwise is said in note. Returns the
 * button that does it, whose "clicked" is the caller's; its window is closed by it. The focus is not on it. */
GtkWidget *cro_new_name_show_merge (CroInput   *input,
                                    CroRef      ref,
                                    const char *name,
                                    const char *note);

G_END_DECLS
