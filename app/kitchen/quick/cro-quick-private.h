/* cro-quick-private.h: what the files share that read a quick line (cro-quick.h). */
#pragma once

#include "cro-quick.h"
#include "cro-remark.h"

G_BEGIN_DECLS

/* The line while it is taken apart from both ends: what is left of it is the name. */
typedef struct
{
  CroModel            *model;
  const CroEntryWords *words;
  const char          *text;
  gsize                start;
  gsize                end;
} CroQuickRest;

/* Takes space, and commas at the end, from both of its ends. */
void     cro_quick_rest_trim      (CroQuickRest       *rest);

/* A text of its own, as what follows its end must not be read. */
char    *cro_quick_rest_dup       (const CroQuickRest *rest,
                                   gsize               at);

/* The next begin of a word behind at; the end where there is none. */
gsize    cro_quick_rest_next      (const CroQuickRest *rest,
                                   gsize               at);

/* Always FALSE. */
gboolean cro_quick_fail           (CroQuick           *quick,
                                   CroQuickFault       fault,
                                   gsize               start,
                                   gsize               end);

/* Fails with what a remark from start to end would seem to count; TRUE where it is plain. */
gboolean cro_quick_check_remark   (CroQuick           *quick,
                                   CroRemark           remark,
                                   gsize               start,
                                   gsize               end);

gboolean cro_quick_is_of_pieces   (const CroQuick     *quick);

void     cro_quick_add_note       (CroQuick           *quick,
                                   const char         *text);

/* CRO_NO_SLOT: none, or two that differ in number alone. */
guint32  cro_quick_find_item      (CroModel           *model,
                                   const char         *name);

/* Each FALSE where what stands there is no amount, with its fault; TRUE where none stands there. */
gboolean cro_quick_take_leading_amount  (CroQuickRest *rest,
                                         CroQuick     *quick);
gboolean cro_quick_take_trailing_amount (CroQuickRest *rest,
                                         CroQuick     *quick);

G_END_DECLS
