/* cro-course.h: a small picture of how a value went over a period, in the row that has it in numbers. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define CRO_TYPE_COURSE (cro_course_get_type ())
G_DECLARE_FINAL_TYPE (CroCourse, cro_course, CRO, COURSE, GtkWidget)

/* Pixels. */
#define CRO_COURSE_WIDTH 96

GtkWidget *cro_course_new (void);

/* A letter for each point of equal distance, 'A' for the lowest to 'z' for the highest; a space where
 * there was no value. */
void       cro_course_set (CroCourse  *self,
                           const char *points);

G_END_DECLS
