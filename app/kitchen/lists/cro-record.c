#include "config.h"

#include "cro-records-private.h"

/* It holds its own copy of the row and its texts: the records may be read anew while somebody
 * still shows it. */
struct _CroRecord
{
  GObject       parent_instance;

  CroRecords   *records;
  CroRecordRow  row;
};

G_DEFINE_FINAL_TYPE (CroRecord, cro_record, G_TYPE_OBJECT)

static void
cro_record_finalize (GObject *object)
{
  CroRecord *self = CRO_RECORD (object);

  for (guint i = 0; i < CRO_RECORD_MOST; i++)
    g_free ((char *) self->row.values[i].text);
  g_object_unref (self->records);
  G_OBJECT_CLASS (cro_record_parent_class)->finalize (object);
}

static void
cro_record_class_init (CroRecordClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = cro_record_finalize;
}

static void
cro_record_init (CroRecord *self)
{
}

CroRecord *
cro_record_new (CroRecords         *records,
                const CroRecordRow *row)
{
  CroRecord *self = g_object_new (CRO_TYPE_RECORD, NULL);

  self->records = g_object_ref (records);
  self->row = *row;
  self->row.also = NULL;
  for (guint i = 0; i < CRO_RECORD_MOST; i++)
    self->row.values[i].text = g_strdup (row->values[i].text);
  return self;
}

const CroRecordRow *
cro_record_get_row (CroRecord *self)
{
  return &self->row;
}

gint64
cro_record_get_id (CroRecord *self)
{
  return self->row.id;
}

CroRef
cro_record_get_ref (CroRecord *self)
{
  return self->row.ref;
}

char *
cro_record_dup_month (CroRecord *self)
{
  char text[CRO_DATE_CHARS];

  if (self->row.month == G_MININT32)
    return NULL;
  cro_date_format (self->row.month, text);
  text[7] = '\0';
  return g_strdup (text);
}

gboolean
cro_record_is_heading (CroRecord *self,
                       gboolean  *is_folded)
{
  *is_folded = self->row.is_folded;
  return self->row.is_heading;
}

gboolean
cro_record_is_closed (CroRecord *self)
{
  return self->row.is_closed;
}

char *
cro_record_dup_text (CroRecord *self,
                     guint      column)
{
  CroValueKind kind = cro_records_column (cro_records_get_kind (self->records), column)->kind;

  /* Of most columns it says nothing. */
  if (self->row.is_heading)
    return g_strdup (self->row.values[column].text != NULL ? self->row.values[column].text : "");
  return cro_record_value_text (cro_records_get_model (self->records), kind,
                                &self->row.values[column]);
}
