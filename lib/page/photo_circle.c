/* SPDX-License-Identifier: MIT */
/* Where in a photograph the lens shows its disc: the outermost step from dark to bright is looked
 * for along rays, a circle that most of these edges agree on is chosen (random sample consensus,
 * Fischler and Bolles, Commun. ACM 24, 381 (1981); the draws are the same on each run), and fitted
 * by least squares (Kasa, IEEE Trans. Instrum. Meas. 25, 8 (1976)). Brushes that reach the rim,
 * specks beside the disc and a rim cut by the picture's frame are outvoted. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "image.h"
#include "photo.h"

enum { SIDE = 400, RAYS = 360, DRAWS = 400, LEVELS = 256 };

/* The photo made small and soft. */
typedef struct Grey {
    double *light; /* of 0 to 255 */
    int width, height;
    double scale; /* photo pixels a pixel */
} Grey;

typedef struct Edges {
    double x[RAYS], y[RAYS];
    int count;
} Edges;

/* The brightest of the three channels: a disc of one colour is as bright as a white one. */
static IfigStatus shrink(const IfigPhoto *photo, Grey *grey, IfigError *error)
{
    const double longer = fmax(photo->width, photo->height);
    grey->scale = longer > SIDE ? longer / SIDE : 1.0;
    grey->width = (int)fmax(1.0, floor(photo->width / grey->scale));
    grey->height = (int)fmax(1.0, floor(photo->height / grey->scale));
    const size_t size = (size_t)grey->width * (size_t)grey->height;
    grey->light = calloc(size, sizeof *grey->light);
    int *const counts = calloc(size, sizeof *counts);
    if (grey->light == NULL || counts == NULL) {
        free(counts);
        return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory to look for the disc of a photo");
    }
    const uint8_t *rgb = photo->rgb;
    for (uint32_t y = 0; y < photo->height; y++) {
        const int row = (int)fmin(grey->height - 1, (y + 0.5) / grey->scale);
        for (uint32_t x = 0; x < photo->width; x++, rgb += 3) {
            const int column = (int)fmin(grey->width - 1, (x + 0.5) / grey->scale);
            const size_t at = (size_t)row * (size_t)grey->width + (size_t)column;
            grey->light[at] += fmax(rgb[0], fmax(rgb[1], rgb[2]));
            counts[at]++;
        }
    }
    for (size_t i = 0; i < size; i++) {
        grey->light[i] /= counts[i] > 0 ? counts[i] : 1;
    }
    free(counts);
    return IFIG_OK;
}

static int by_value(const void *one, const void *other)
{
    const double a = *(const double *)one, b = *(const double *)other;
    return (a > b) - (a < b);
}

/* Medians of three by three: specks and the noise of the camera go, edges stay. */
static IfigStatus soften(Grey *grey, IfigError *error)
{
    const size_t size = (size_t)grey->width * (size_t)grey->height;
    double *const soft = malloc(size * sizeof *soft);
    if (soft == NULL) {
        return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory to look for the disc of a photo");
    }
    for (int y = 0; y < grey->height; y++) {
        for (int x = 0; x < grey->width; x++) {
            double near[9];
            for (int k = 0; k < 9; k++) {
                const int u = x + k % 3 - 1, v = y + k / 3 - 1;
                const int column = u < 0 ? 0 : u >= grey->width ? grey->width - 1 : u;
                const int row = v < 0 ? 0 : v >= grey->height ? grey->height - 1 : v;
                near[k] = grey->light[row * grey->width + column];
            }
            qsort(near, 9, sizeof *near, by_value);
            soft[y * grey->width + x] = near[4];
        }
    }
    free(grey->light);
    grey->light = soft;
    return IFIG_OK;
}

/* The level that parts dark from bright best (Otsu, IEEE Trans. Syst. Man Cybern. 9, 62 (1979)). */
static double threshold_of(const Grey *grey, double *contrast)
{
    double counts[LEVELS] = {0.0}, total = 0.0, all = 0.0, below = 0.0, sum = 0.0, best = -1.0;
    double level = 0.0;
    for (int i = 0; i < grey->width * grey->height; i++) {
        const int code = (int)fmin(255.0, grey->light[i]);
        counts[code] += 1.0;
        total += 1.0;
        all += code;
    }
    for (int code = 0; code < LEVELS - 1; code++) {
        below += counts[code];
        sum += counts[code] * code;
        if (below > 0.0 && below < total) {
            const double dark = sum / below, bright = (all - sum) / (total - below);
            const double between = below * (total - below) * (bright - dark) * (bright - dark);
            if (between > best) {
                best = between;
                level = 0.5 * (dark + bright);
                *contrast = bright - dark;
            }
        }
    }
    return level;
}

static double light_at(const Grey *grey, double x, double y)
{
    const int column = (int)floor(x), row = (int)floor(y);
    return column >= 0 && row >= 0 && column < grey->width && row < grey->height
               ? grey->light[row * grey->width + column]
               : -1.0;
}

/* Along each ray from a middle, from outside in, the first place where three pixels on end are
 * bright. A ray that is bright at the picture's frame has no edge there. */
static void find_edges(const Grey *grey, double level, double middle_x, double middle_y,
                       Edges *edges)
{
    const double longest = hypot(grey->width, grey->height), step = 0.5;
    const double between = 0.375; /* half a step, and what the median took */
    edges->count = 0;
    for (int ray = 0; ray < RAYS; ray++) {
        const double c = cos(2.0 * IFIG_PI * ray / RAYS), s = sin(2.0 * IFIG_PI * ray / RAYS);
        double reach = longest;
        while (reach > 0.0 && light_at(grey, middle_x + reach * c, middle_y + reach * s) < 0.0) {
            reach -= step;
        }
        const double rim = reach;
        int bright = 0;
        for (; reach > 0.0 && bright < 6; reach -= step) {
            const double light = light_at(grey, middle_x + reach * c, middle_y + reach * s);
            bright = light >= level ? bright + 1 : 0;
        }
        const double edge = reach + 6.0 * step + between;
        if (bright == 6 && edge < rim - 2.0) {
            edges->x[edges->count] = middle_x + edge * c;
            edges->y[edges->count++] = middle_y + edge * s;
        }
    }
}

/* Least squares of x^2 + y^2 = a x + b y + c over the edges chosen; 0 where they lie on a line. */
static int fit(const Edges *edges, const unsigned char *chosen, IfigCircle *circle)
{
    double m[3][4] = {{0.0}};
    for (int i = 0; i < edges->count; i++) {
        if (chosen[i]) {
            const double row[4] = {edges->x[i], edges->y[i], 1.0,
                                   edges->x[i] * edges->x[i] + edges->y[i] * edges->y[i]};
            for (int r = 0; r < 3; r++) {
                for (int c = 0; c < 4; c++) {
                    m[r][c] += row[r] * row[c];
                }
            }
        }
    }
    for (int r = 0; r < 3; r++) { /* the matrix is symmetric and positive: no pivots needed */
        if (!(fabs(m[r][r]) > 1e-9)) {
            return 0;
        }
        for (int other = 0; other < 3; other++) {
            const double share = other == r ? 0.0 : m[other][r] / m[r][r];
            for (int c = r; c < 4; c++) {
                m[other][c] -= share * m[r][c];
            }
        }
    }
    circle->x = 0.5 * m[0][3] / m[0][0];
    circle->y = 0.5 * m[1][3] / m[1][1];
    const double square = m[2][3] / m[2][2] + circle->x * circle->x + circle->y * circle->y;
    circle->radius = sqrt(square);
    return square > 0.0 && isfinite(square);
}

static int agree(const Edges *edges, const IfigCircle *circle, double within, unsigned char *chosen)
{
    int count = 0;
    for (int i = 0; i < edges->count; i++) {
        const double off = hypot(edges->x[i] - circle->x, edges->y[i] - circle->y) - circle->radius;
        chosen[i] = fabs(off) <= within;
        count += chosen[i];
    }
    return count;
}

/* The same numbers on each run (Knuth, The Art of Computer Programming 2, 3.3.4, MMIX's). */
static int draw(uint64_t *state, int below)
{
    *state = *state * 6364136223846793005u + 1442695040888963407u;
    return (int)((*state >> 33) % (uint64_t)below);
}

/* The circle that most edges lie on; returns how many. */
static int choose(const Grey *grey, const Edges *edges, IfigCircle *best)
{
    unsigned char chosen[RAYS];
    uint64_t state = 1;
    int most = 0;
    const double least = 0.1 * fmin(grey->width, grey->height);
    const double largest = 0.75 * hypot(grey->width, grey->height);
    for (int i = 0; i < DRAWS && edges->count >= 3; i++) {
        IfigCircle circle = {0.0, 0.0, 0.0};
        memset(chosen, 0, sizeof chosen);
        for (int k = 0; k < 3; k++) {
            chosen[draw(&state, edges->count)] = 1;
        }
        if (!fit(edges, chosen, &circle) || circle.radius < least || circle.radius > largest) {
            continue;
        }
        const int count = agree(edges, &circle, 1.5, chosen);
        if (count > most) {
            most = count;
            *best = circle;
        }
    }
    for (int i = 0; i < 3 && most >= 3; i++) {
        IfigCircle finer = *best;
        agree(edges, best, 1.5, chosen);
        if (fit(edges, chosen, &finer) && agree(edges, &finer, 1.5, chosen) >= most / 2) {
            *best = finer;
        }
    }
    return most;
}

/* The middle of all that is bright. */
static int middle_of(const Grey *grey, double level, double *x, double *y)
{
    double count = 0.0, across = 0.0, down = 0.0;
    for (int row = 0; row < grey->height; row++) {
        for (int column = 0; column < grey->width; column++) {
            if (grey->light[row * grey->width + column] >= level) {
                count += 1.0;
                across += column + 0.5;
                down += row + 0.5;
            }
        }
    }
    *x = across / fmax(count, 1.0);
    *y = down / fmax(count, 1.0);
    return count > 0.0;
}

/* Rays from the disc's own middle see its rim best: look twice more from there. */
static int look(const Grey *grey, IfigCircle *circle)
{
    const double least_contrast = 16.0, least_of_rays = 0.35, least_of_edges = 0.5;
    double contrast = 0.0, x, y;
    Edges edges;
    const double level = threshold_of(grey, &contrast);
    if (contrast < least_contrast || !middle_of(grey, level, &x, &y)) {
        return 0;
    }
    int agreed = 0;
    for (int i = 0; i < 3; i++) {
        find_edges(grey, level, x, y, &edges);
        agreed = choose(grey, &edges, circle);
        if (agreed < 3) {
            return 0;
        }
        x = circle->x;
        y = circle->y;
    }
    return agreed >= least_of_rays * RAYS && agreed >= least_of_edges * edges.count;
}

IfigStatus ifig_photo_find_circle(const IfigPhoto *photo, const char *name, IfigCircle *circle,
                                  IfigError *error)
{
    Grey grey = {NULL, 0, 0, 1.0};
    IfigStatus status = shrink(photo, &grey, error);
    if (status == IFIG_OK) {
        status = soften(&grey, error);
    }
    if (status == IFIG_OK && !look(&grey, circle)) {
        status = ifig_fail(error, IFIG_ERROR_UNSUITABLE,
                           "no bright disc in a darker surround is found in '%s'; say where it is, "
                           "in pixels from the top left corner: circle: [x, y, radius]",
                           ifig_path_text(name).text);
    }
    free(grey.light);
    circle->x *= grey.scale;
    circle->y *= grey.scale;
    circle->radius *= grey.scale;
    return status;
}
