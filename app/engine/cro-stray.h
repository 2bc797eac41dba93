/* cro-stray.h: characters that no name may have, and no line of a terminal.
 *
 * Control characters (Unicode 15.0, general category Cc) and the separators of lines and paragraphs;
 * the embeddings, overrides and isolates of section 23.2, which turn the text around a name; and the
 * noncharacters of section 23.7, which are kept from interchange.
 *
 * Errors     None; text must be valid UTF-8. */
#pragma once

#include <stdbool.h>
#include <stdint.h>

bool     cro_stray_is   (uint32_t    c);

/* The first of them in text, and in *at, which may be NULL, where it begins; 0: there is none. */
uint32_t cro_stray_find (const char  *text,
                         const char **at);

/* The same of a text of several lines, as a note is: tabs and what ends a line are none. */
uint32_t cro_stray_find_in_lines (const char  *text,
                                  const char **at);
