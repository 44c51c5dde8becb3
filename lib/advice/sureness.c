/* SPDX-License-Identifier: MIT */
/* How surely one clue tells two stones apart. What a trainee's eye tells is common practice, no
 * source. */
#include "advice.h"

#include <math.h>

#define BIT(n) (1u << (n))

/* Two ranges: `step` can just be read, `clear` leaves no doubt. Ranges that overlap by less than a
 * quarter of the narrower one still part most stones. */
static IfigSureness ranges(const double a[2], const double b[2], double step, double clear)
{
    const double gap = fmax(a[0], b[0]) - fmin(a[1], b[1]);
    const double narrower = fmin(a[1] - a[0], b[1] - b[0]);
    const double rounding = 1e-9;
    if (isnan(gap)) {
        return IFIG_SURE_NOT;
    }
    if (gap >= clear - rounding) {
        return IFIG_SURE_PRACTISED;
    }
    if (gap >= step - rounding) {
        return IFIG_SURE_HARD;
    }
    return gap > 0.0 || gap > -0.25 * narrower ? IFIG_SURE_SOMETIMES : IFIG_SURE_NOT;
}

static IfigSureness words(unsigned a, unsigned b, IfigSureness where_disjoint)
{
    return (a & b) == 0 ? where_disjoint : a == b ? IFIG_SURE_NOT : IFIG_SURE_SOMETIMES;
}

/* Strain can be taken for a blink, and a table cut across the axis hides one. */
static IfigSureness by_reaction(const IfigTraits *a, const IfigTraits *b)
{
    const unsigned both = a->reactions | b->reactions;
    const int is_hidden = a->is_cut_across != b->is_cut_across;
    const int is_strained = (both & BIT(IFIG_REACTION_ADR)) != 0;
    return words(a->reactions, b->reactions,
                 is_hidden || is_strained ? IFIG_SURE_PRACTISED : IFIG_SURE_ANYONE);
}

/* A biaxial stone whose 2V is seldom so small that it looks uniaxial: less than a quarter of its
 * range. */
static unsigned own_characters(const IfigTraits *traits)
{
    const double width = traits->two_v_high_deg - traits->two_v_low_deg;
    const int is_seldom = traits->two_v_low_deg <= IFIG_LOOKS_UNIAXIAL_DEG &&
                          IFIG_LOOKS_UNIAXIAL_DEG - traits->two_v_low_deg < 0.25 * width;
    return is_seldom ? traits->characters & ~BIT(IFIG_UNIAXIAL) : traits->characters;
}

static IfigSureness by_character(const IfigTraits *a, const IfigTraits *b)
{
    const double small_angle_deg = 15.0; /* brushes part little, as in a strained uniaxial stone */
    const unsigned axes = BIT(IFIG_UNIAXIAL) | BIT(IFIG_BIAXIAL);
    const unsigned own_a = own_characters(a), own_b = own_characters(b);
    const double two_v = fmin(isnan(a->two_v_low_deg) ? 90.0 : a->two_v_low_deg,
                              isnan(b->two_v_low_deg) ? 90.0 : b->two_v_low_deg);
    const int is_small = (own_a & axes) != 0 && (own_b & axes) != 0 && two_v < small_angle_deg;
    return words(own_a, own_b, is_small ? IFIG_SURE_HARD : IFIG_SURE_PRACTISED);
}

/* Near 90 degrees the two bisectrices look alike, and with them the signs. */
static IfigSureness by_sign(const IfigTraits *a, const IfigTraits *b)
{
    const double large_angle_deg = 80.0;
    const unsigned both_signs = IFIG_SIGN_POSITIVE | IFIG_SIGN_NEGATIVE;
    if ((a->signs & both_signs) == 0 || (b->signs & both_signs) == 0) {
        return IFIG_SURE_NOT;
    }
    const int is_large =
        a->two_v_high_deg >= large_angle_deg || b->two_v_high_deg >= large_angle_deg;
    return words(a->signs & both_signs, b->signs & both_signs,
                 is_large ? IFIG_SURE_HARD : IFIG_SURE_PRACTISED);
}

static IfigSureness by_two_v(const IfigTraits *a, const IfigTraits *b)
{
    const double estimated_deg = 10.0, clear_deg = 25.0;
    return ranges((const double[]){a->two_v_low_deg, a->two_v_high_deg},
                  (const double[]){b->two_v_low_deg, b->two_v_high_deg}, estimated_deg, clear_deg);
}

/* Orders count only between stones of one thickness: never more than a hint. */
static IfigSureness by_rings(const IfigTraits *a, const IfigTraits *b)
{
    const double ratio = 1.5;
    const double fewer = fmin(a->rings_high, b->rings_high);
    const double more = fmax(a->rings_low, b->rings_low);
    return a->rings_high > 0.0 && b->rings_high > 0.0 && more >= ratio * fewer ? IFIG_SURE_HARD
                                                                               : IFIG_SURE_NOT;
}

static IfigSureness by_eye(const IfigTraits *a, const IfigTraits *b)
{
    return (a->bulls_eye == 0) != (b->bulls_eye == 0) ? IFIG_SURE_PRACTISED : IFIG_SURE_NOT;
}

/* The hues stand in a circle from red to purple; the border between neighbours is a matter of
 * taste, and colourless is the palest of each. */
static unsigned with_neighbours(unsigned hues)
{
    const unsigned circle = hues & ~BIT(IFIG_HUE_NEUTRAL);
    unsigned wide = circle << 1 | circle >> 1;
    wide |= (circle & BIT(IFIG_HUE_PURPLE)) != 0 ? BIT(IFIG_HUE_RED) : 0u;
    wide |= (circle & BIT(IFIG_HUE_RED)) != 0 ? BIT(IFIG_HUE_PURPLE) : 0u;
    return (wide & ~BIT(IFIG_HUE_NEUTRAL)) | hues;
}

static IfigSureness by_colour(const IfigTraits *a, const IfigTraits *b)
{
    if (a->hues == 0 || b->hues == 0 || (a->hues & b->hues) != 0) {
        return IFIG_SURE_NOT;
    }
    const int is_pale = ((a->hues | b->hues) & BIT(IFIG_HUE_NEUTRAL)) != 0;
    return is_pale || (with_neighbours(a->hues) & b->hues) != 0 ? IFIG_SURE_HARD : IFIG_SURE_ANYONE;
}

/* Beyond the liquid's own index no edge is seen, whatever the stone's. */
static IfigSureness by_index(const IfigTraits *a, const IfigTraits *b)
{
    const double limit = IFIG_REFRACTOMETER_LIMIT, step = 0.004, clear = 0.01;
    const int a_over = a->n_low >= limit, b_over = b->n_low >= limit;
    if (a_over && b_over) {
        return IFIG_SURE_NOT;
    }
    if (a_over != b_over && fmin(a->n_high, b->n_high) < limit) {
        return IFIG_SURE_PRACTISED;
    }
    return ranges((const double[]){fmin(a->n_low, limit), fmin(a->n_high, limit)},
                  (const double[]){fmin(b->n_low, limit), fmin(b->n_high, limit)}, step, clear);
}

/* Of two edges one at least is not seen, or of one edge none. */
static int hides_an_edge(const IfigTraits *traits)
{
    const double n = traits->birefringence_high > 0.0 ? traits->n_high : traits->n_low;
    return n >= IFIG_REFRACTOMETER_LIMIT;
}

static IfigSureness by_birefringence(const IfigTraits *a, const IfigTraits *b)
{
    const double step = 0.002, clear = 0.005;
    if (hides_an_edge(a) || hides_an_edge(b)) {
        return IFIG_SURE_NOT;
    }
    return ranges((const double[]){a->birefringence_low, a->birefringence_high},
                  (const double[]){b->birefringence_low, b->birefringence_high}, step, clear);
}

IfigSureness ifig_clue_sureness(IfigClue clue, const IfigTraits *a, const IfigTraits *b)
{
    typedef IfigSureness Judge(const IfigTraits *, const IfigTraits *);
    static Judge *const judges[IFIG_CLUE_COUNT] = {[IFIG_CLUE_REACTION] = by_reaction,
                                                   [IFIG_CLUE_CHARACTER] = by_character,
                                                   [IFIG_CLUE_SIGN] = by_sign,
                                                   [IFIG_CLUE_TWO_V] = by_two_v,
                                                   [IFIG_CLUE_RINGS] = by_rings,
                                                   [IFIG_CLUE_BULLS_EYE] = by_eye,
                                                   [IFIG_CLUE_COLOUR] = by_colour,
                                                   [IFIG_CLUE_INDEX] = by_index,
                                                   [IFIG_CLUE_BIREFRINGENCE] = by_birefringence};
    const int needs_light = clue <= IFIG_CLUE_BULLS_EYE;
    return needs_light && (a->is_opaque || b->is_opaque) ? IFIG_SURE_NOT : judges[clue](a, b);
}

IfigSureness ifig_gravity_sureness(const IfigTraits *a, const IfigTraits *b)
{
    const double step = 0.02, clear = 0.1;
    return ranges((const double[]){a->gravity_low, a->gravity_high},
                  (const double[]){b->gravity_low, b->gravity_high}, step, clear);
}
