/* cro-bridge.h: why a cost changed between two months, without a residue.
 *
 * Of a thing, s = V m were sold, V being all that was sold and m its share; one took q at p of each
 * part. With x' the mean of both months and D the difference
 *
 *   volume = c' m' DV     mix = c' V' Dm     price = s' q' Dp     recipe = s' p' Dq
 *
 * for every part, c' being its mean cost q p in one: their sum is D (s q p), exactly.
 * Source: T. L. Bennet, The Theory of Measurement of Changes in Cost of Living, Journal of the Royal
 * Statistical Society 83 (1920), for price and quantity; nested here for the share and the volume.
 *
 * Units      Whatever sold, quantities and prices are in. [0] is the month from which, [1] to which. */
#pragma once

typedef enum
{
  CRO_BRIDGE_VOLUME,
  CRO_BRIDGE_MIX,
  CRO_BRIDGE_PRICE,
  CRO_BRIDGE_RECIPE,
  CRO_N_BRIDGE_EFFECTS,
} CroBridgeEffect;

typedef struct
{
  double all[2];      /* V */
  double share[2];    /* m */
} CroBridgeSold;

/* What was sold of a thing, of all that was sold. Where nothing was sold
 * in a month at all, its shares are those of the other. */
CroBridgeSold cro_bridge_sold (const double         all[2],
                               const double         sold[2]);

/* Adds the effects of one part of one thing to effects[]. */
void          cro_bridge_add  (const CroBridgeSold *sold,
                               const double         quantity[2],
                               const double         price[2],
                               double               effects[CRO_N_BRIDGE_EFFECTS]);
