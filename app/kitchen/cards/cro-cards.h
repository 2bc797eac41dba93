/* cro-cards.h: cards as PDF files, one of each thing in a folder or all of them in one file.
 *
 * Errors     G_FILE_ERROR; CRO_CARDS_ERROR. */
#pragma once

#include "cro-book.h"
#include "cro-paper.h"
#include "cro-ref.h"

G_BEGIN_DECLS

#define CRO_CARDS_ERROR (cro_cards_error_quark ())

typedef enum
{
  CRO_CARDS_ERROR_TOO_LARGE,   /* a figure; the message is the name of what has it */
  CRO_CARDS_ERROR_CANCELLED,
} CroCardsErrorCode;

GQuark    cro_cards_error_quark (void);

/* What is asked of every card. */
typedef struct
{
  gboolean            is_kitchen;   /* a kitchen card, and no cost card */
  gboolean            with_money;   /* of a kitchen card */
  gboolean            is_rtl;
  gint64              bites;        /* of a kitchen card; 0: as the recipe is written */
  const CroPaperSize *size;
} CroCardWish;

/* Asked before each card, with the part that is done, 0 to 1, and at the end; FALSE cancels. */
typedef gboolean (*CroCardsGoOn) (gpointer user_data, double done);

/* What went wrong, as a sentence without its full stop; other errors as cro_words_error has them. Owned. */
char     *cro_cards_error_words (const GError       *error);

/* NULL with error. */
CroPaper *cro_card_paper        (CroBook            *book,
                                 CroRef              thing,
                                 const CroCardWish  *wish,
                                 GError            **error);

/* Which paper a card of a book is for. */
const CroPaperSize *cro_cards_size (CroBook         *book);

/* What the file of a card is called, without a folder. Owned. */
char     *cro_card_dup_file     (CroBook            *book,
                                 CroRef              thing,
                                 const CroCardWish  *wish);

/* things: CroRef. A file at path, which appears when it is whole, or not at all. language: that of its
 * words, a code of a catalogue; NULL: the person's. */
gboolean  cro_cards_write_file  (CroBook            *book,
                                 GArray             *things,
                                 const CroCardWish  *wish,
                                 const char         *path,
                                 const char         *language,
                                 CroCardsGoOn        go_on,
                                 gpointer            user_data,
                                 GError            **error);

/* A file of each in a folder, which is made if it is not there; those of the same name are written
 * over. Cancelled or failed, those that are whole stay: *n_written, the first of them. */
gboolean  cro_cards_write_folder (CroBook           *book,
                                 GArray             *things,
                                 const CroCardWish  *wish,
                                 const char         *folder,
                                 const char         *language,
                                 CroCardsGoOn        go_on,
                                 gpointer            user_data,
                                 guint              *n_written,
                                 GError            **error);

/* The same, a card at a time: for whoever waits in a main loop. */
typedef struct _CroCardFolder CroCardFolder;

/* things are copied. NULL with error. */
CroCardFolder *cro_card_folder_new  (CroBook            *book,
                                     GArray             *things,
                                     const CroCardWish  *wish,
                                     const char         *folder,
                                     GError            **error);
void           cro_card_folder_free (CroCardFolder      *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroCardFolder, cro_card_folder_free)

/* Writes the next card, in the person's language. FALSE: there was none left, or with error. */
gboolean       cro_card_folder_step (CroCardFolder      *self,
                                     GError            **error);

/* The part that is written, 0 to 1. */
double         cro_card_folder_done (const CroCardFolder *self);

G_END_DECLS
