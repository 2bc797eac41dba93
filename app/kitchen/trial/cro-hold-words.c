#include "config.h"

#include "cro-hold-words.h"

#include <glib/gi18n.h>

#include "cro-figure-words.h"
#include "cro-isolate.h"
#include "cro-line-amount.h"
#include "cro-pack.h"
#include "cro-words.h"

/* What is changed: "selling price of Tide". */
static char *
dup_of (CroBook       *book,
        const CroHold *self)
{
  CroModel *model = cro_book_get_model (book);
  CroRef recipe = CRO_REF (CRO_REF_RECIPE, self->recipe);

  if (self->kind == CRO_HOLD_SELLING)
    return cro_isolate_printf (_("selling price of %s"), cro_ref_name (model, self->thing));
  /* An item may stand in more than one recipe. */
  if (self->kind == CRO_HOLD_AMOUNT && !cro_ref_equal (recipe, self->thing))
    /* Translators: an item, and the recipe that takes it. */
    return cro_isolate_printf (_("amount of %s in %s"), cro_model_item (model, self->item)->name,
                               cro_ref_name (model, recipe));
  if (self->kind == CRO_HOLD_AMOUNT)
    return cro_isolate_printf (_("amount of %s"), cro_model_item (model, self->item)->name);
  return cro_isolate_printf (_("price of %s"), cro_model_item (model, self->item)->name);
}

static char *
dup_value (CroBook       *book,
           const CroHold *self,
           gint64         value)
{
  CroModel *model = cro_book_get_model (book);

  if (value == CRO_NOT_SET)
    return g_strdup ("–");
  if (self->kind == CRO_HOLD_AMOUNT)
    return cro_line_amount_to_text ((CroLineAmount){ value, model->lines.unit[self->line] }, 0);
  if (self->kind == CRO_HOLD_PRICE)
    return cro_pack_price_to_text (model, self->offer, value);
  return cro_words_price (model, value);
}

static const char *
why_not (const CroHold *self)
{
  switch (self->answer)
    {
    case CRO_HOLD_NO_TARGET:
      return _("no target is set");
    case CRO_HOLD_NO_PRICE:
      return _("no selling price is set");
    case CRO_HOLD_NOTHING:
      return _("nothing in it costs anything yet");
    case CRO_HOLD_NEVER:
      return self->kind == CRO_HOLD_AMOUNT    ? _("over even without it")
             : self->kind == CRO_HOLD_SELLING ? _("over at any price")
                                              : _("over even as a gift");
    case CRO_HOLD_OK:
    case CRO_HOLD_ALWAYS:
      return _("holds at any");
    }
  g_return_val_if_reached (NULL);
}

char *
cro_hold_words (CroBook       *book,
                const CroHold *self)
{
  g_autofree char *of = dup_of (book, self);
  g_autofree char *now = NULL, *plain = NULL, *value = NULL;

  if (self->answer != CRO_HOLD_OK)
    /* Translators: what would be changed for a target, and why that does not help. */
    return cro_isolate_printf (_("%s: %s"), of, why_not (self));
  now = dup_value (book, self, self->now);
  plain = dup_value (book, self, self->value);
  value = cro_words_known (self->known, plain);
  if (self->kind == CRO_HOLD_PRICE)
    /* Translators: the price of a pack for the target, and that of now. */
    return cro_isolate_printf (_("%s: %s per pack, now %s"), of, value, now);
  /* Translators: what is changed for the target, to what, and what it is now. */
  return cro_isolate_printf (_("%s: %s, now %s"), of, value, now);
}

char *
cro_hold_dup_label (CroBook       *book,
                    const CroHold *self)
{
  g_autofree char *of = dup_of (book, self);

  /* Translators: an entry of the history; %s is what was changed so that a target is met. */
  return cro_isolate_printf (_("%s for the target"), of);
}
