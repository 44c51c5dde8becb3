/* SPDX-License-Identifier: MIT */
/* Room 6: figure. Enters: a scene. Leaves: pixels.
 *
 * At a point of the picture and a wavelength, a stack of layers lets through
 *   I = | sum over subsets S of i^|S| u_S prod_{j in S} sin(k0 d_j h_j) / h_j prod_{others} cos |^2
 * where u_S = <analyser| ... (Q_j - s_j/2 for j in S, 1 for others) ... |polariser> with the faces
 * between. u_S and h_j^2 are smooth in direction and wavelength, also through the optic axes of a
 * stone whose axes are dispersed; the sines and cosines are not. So: u and h^2 are computed exactly
 * at a few directions of each tile and a few wavelengths (point.c), carried to every pixel and
 * wavelength by polynomials that are tested against more exact points (tile.c), and there, and only
 * there, the fringes are formed and summed (fringe_sum.c). */
#ifndef IFIG_FIGURE_ROOM_H
#define IFIG_FIGURE_ROOM_H

#include <complex.h>

#include "instrument.h"
#include "interfig/figure.h"
#include "light.h"
#include "wave.h"

enum {
    IFIG_SUBSETS_MAX = 1 << IFIG_LAYERS_MAX,
    IFIG_QUANTITIES_MAX = 3 * IFIG_LAYERS_MAX + 2 * IFIG_SUBSETS_MAX,
    IFIG_TILE_NODES = 8, /* Chebyshev points along each side of a tile */
    IFIG_TILE_MAX = 256, /* pixels along a tile's side */
    IFIG_ROW_MAX = 128,  /* pixels of a row that are worked on together */
    IFIG_SUPPORTS_MAX = IFIG_SAMPLES_MOST,
    IFIG_SUPPORT_SETS = 12, /* the last may be all samples */
    IFIG_CODE_STARTS = 4096,
    IFIG_LANES = 16, /* samples that are summed side by side */
    IFIG_SAMPLES_PADDED = (IFIG_SAMPLES_MOST + IFIG_LANES) / IFIG_LANES * IFIG_LANES
};

/* The smooth quantities at one point and wavelength: h^2 of each layer (real part), then the real
 * parts of u_S, then the imaginary parts; then, of layers that absorb, the imaginary part of h^2
 * and that of the mean of the modes' q, s/2, each for every layer. S is a bit mask of layers. */
typedef struct IfigSmooth {
    double q[IFIG_QUANTITIES_MAX];
} IfigSmooth;

/* What takes a picture to itself: a half turn alone, or mirrors that exchange its lower and upper
 * rows, its left and right columns, or both (and so a half turn too). Mirrors are bits. */
typedef enum IfigSymmetry {
    IFIG_SYMMETRY_NONE = 0,
    IFIG_SYMMETRY_HALF_TURN = 1,
    IFIG_SYMMETRY_ROWS = 2,
    IFIG_SYMMETRY_COLUMNS = 4,
    IFIG_SYMMETRY_MIRRORS = IFIG_SYMMETRY_ROWS | IFIG_SYMMETRY_COLUMNS
} IfigSymmetry;

/* Everything about a picture but what is in it: its size, its colours, who computes it. */
typedef struct IfigRaster {
    double colour[3][3];       /* XYZ to linear sRGB, exposure included */
    double plain_colour[3][3]; /* the same without it, so that X, Y and Z do not depend on it */
    float step8[256]; /* linear values at which the 8-bit code rises to 1, ..., 255, then 2 */
    uint8_t start8[IFIG_CODE_STARTS]; /* the code at each 4095th from 0 to 1 */
    double surround;                  /* linear */
    uint32_t pixels, tile_pixels;
    IfigSymmetry symmetry;
    int threads;
    IfigProgress progress;
    void *progress_context;
} IfigRaster;

/* Some of the lamp's samples, and what they weigh where they stand for all of them: see carrier.h.
 */
typedef struct IfigSupports {
    size_t count, sample[IFIG_SUPPORTS_MAX];
    size_t reference;   /* the support that matters most to the eye */
    double least_turns; /* there: below, hardly ever is a carrier needed */
    float *weight;      /* count x (X, Y, Z) x IFIG_SAMPLES_PADDED, the rest 0: w_k L_j(k); NULL
                           where every sample is its own support and needs no carrier */
    double even[IFIG_SUPPORTS_MAX][3]; /* their sums over the samples */
} IfigSupports;

struct IfigFigure {
    IfigRaster raster;
    IfigInstrument instrument;
    uint32_t finer;      /* each pixel is the mean of so many by so many that are rendered */
    uint32_t bent_parts; /* and one of these whose phase bends, of so many by so many samples */
    size_t layer_count, subset_count, quantity_count;
    int is_complex, is_absorbing; /* which quantities there are */
    double thickness_nm[IFIG_LAYERS_MAX];
    IfigSpectrumSamples samples;
    size_t node_count;     /* wavelengths at which the optics are exact */
    IfigMedium *medium;    /* node_count x layer_count */
    double *interpolation; /* node_count x samples.count: from nodes to samples; a few 0 more */
    IfigSupports supports[IFIG_SUPPORT_SETS];
    size_t support_set_count;              /* 0: every sample is formed at every pixel */
    double whole_turns[IFIG_SAMPLES_MOST]; /* each sample's phase to that of the middle one, the
                                              whole picture taken together */
    double *weight_plane; /* X, Y, Z x IFIG_SAMPLES_PADDED: the samples' weights, the rest 0 */
};

/* What surrounds the disc, as an sRGB code of 255: dark enough to leave the eye to the figure,
 * light enough to show the rim of a stone that stays dark. */
enum { IFIG_SURROUND_CODE = 38 };

/* A row of a tile of the picture, pixel by pixel. */
typedef struct IfigLightRow {
    float xyz[3][IFIG_TILE_MAX];
} IfigLightRow;

/* Where pixels go: a row, and the first one's column. */
typedef struct IfigRowPlace {
    IfigLightRow *row;
    size_t column;
} IfigRowPlace;

/* A square of the picture whose smooth quantities are polynomials in tx, ty from -1 to 1:
 * coefficient[((k * quantity_count + q) * N + j) * N + i] of tx^i ty^j at spectral sample k. */
typedef struct IfigTile {
    double x, y, half;   /* centre and half side in units of the disc's radius */
    double pixel;        /* side of a pixel in tx */
    int must_fit;        /* so small that what the polynomials miss does not matter */
    double *at_nodes;    /* the same at the exact wavelengths */
    double *coefficient; /* once ifig_tile_samples was called */
    int has_samples;
} IfigTile;

/* point.c: what a point of the picture sees, whatever the wavelength. */
typedef struct IfigPointView {
    const IfigInstrument *instrument;
    IfigRay ray;
    double complex in[2], out[2]; /* polariser; analyser, where there is no accessory plate */
} IfigPointView;
IfigPointView ifig_point_view(const IfigInstrument *instrument, const IfigRay *ray);

/* Exact quantities at a point for the media of one wavelength. */
void ifig_view_quantities(const IfigPointView *view, const IfigMedium *media, size_t layer_count,
                          IfigSmooth *smooth);
void ifig_point_quantities(const IfigInstrument *instrument, const IfigMedium *media,
                           size_t layer_count, double theta, double phi, IfigSmooth *smooth);

/* The same with the polars left open: u_S as matrices in (p, s) of the ray; of each layer the real
 * and the imaginary part of h^2 and the imaginary part of the mean. */
typedef struct IfigPointMatrices {
    IfigMatrix2 u[IFIG_SUBSETS_MAX];
    double h2[IFIG_LAYERS_MAX][3];
} IfigPointMatrices;
void ifig_point_matrices(double n_outside, const IfigMedium *media, size_t layer_count,
                         double theta, double phi, IfigPointMatrices *point);

/* axes.c: where optic axes are seen at some wavelengths (or the places of the rim nearest to that),
 * all layers. */
enum { IFIG_AXIS_WAVELENGTHS = 4 };
typedef struct IfigSightline {
    double theta, phi; /* outside, in radians */
} IfigSightline;
typedef struct IfigAxes {
    IfigSightline at[2 * IFIG_AXIS_WAVELENGTHS * IFIG_LAYERS_MAX];
    size_t count;
    double turns_per_nm; /* where one is seen: of the phase with wavelength, the most */
} IfigAxes;
IfigStatus ifig_figure_axes(const IfigScene *scene, const IfigFigure *figure, IfigAxes *found,
                            IfigError *error);

/* nodes.c: choose the wavelengths at which the optics are exact. */
IfigStatus ifig_figure_nodes(const IfigScene *scene, const IfigAxes *axes, IfigFigure *figure,
                             IfigError *error);

/* How far a polynomial may miss quantity q at a point where the exact quantities are known before
 * an 8-bit code in a thousand could tell: 2e-6 in amplitude, 2e-4 of a radian in phase. */
double ifig_tolerated(const IfigFigure *figure, size_t q, const IfigSmooth *exact,
                      double wavelength_nm);

/* Weights by which values at nodes give the value at x: barycentric interpolation (Berrut &
 * Trefethen, SIAM Rev. 46, 501 (2004)), nodes any, count at most 64; and what of them does not
 * depend on x. */
void ifig_barycentric_factors(const double *node, size_t count, double *factor);
void ifig_barycentric_weights(const double *node, const double *factor, size_t count, double x,
                              double *weight);
/* Chebyshev points of the first kind between -1 and 1, rising. */
double ifig_chebyshev_point(size_t index, size_t count);

/* supports.c */
IfigStatus ifig_supports_create(IfigFigure *figure, IfigError *error);
void ifig_supports_free(IfigFigure *figure);

/* tile.c: fit the polynomials of a tile at the exact wavelengths. Returns 0 where they miss an
 * exact point by more than an eye, or a pixel, could tell. */
size_t ifig_tile_coefficient_count(const IfigFigure *figure);
size_t ifig_tile_node_coefficient_count(const IfigFigure *figure);
int ifig_tile_fit(const IfigFigure *figure, IfigTile *tile);
/* From the exact wavelengths to one spectral sample, and to all where that is still to be done. */
void ifig_tile_sample(const IfigFigure *figure, const IfigTile *tile, size_t k, double *c);
void ifig_tile_samples(const IfigFigure *figure, IfigTile *tile);

/* fringe_sum.c: XYZ of a row of count samples to where they go, each an area of the given side
 * in tx, the first centred on (tx0, ty). workspace: ifig_fringe_workspace_size doubles. bent (may
 * be NULL): set to 1 for samples whose phase bends too much within their area for the closed form.
 */
size_t ifig_fringe_workspace_size(const IfigFigure *figure);
void ifig_fringe_row(const IfigFigure *figure, const IfigTile *tile, double tx0, double ty,
                     double side, size_t count, double *workspace, IfigRowPlace to,
                     unsigned char *bent);

/* region.c: XYZ of a square of the picture, in pixels from its top left corner. */
typedef struct IfigRegionWork IfigRegionWork;
IfigStatus ifig_region_work_create(const IfigFigure *figure, IfigRegionWork **work,
                                   IfigError *error);
void ifig_region_work_free(IfigRegionWork *work);
/* Returns its rows, which stay until the next call. */
const IfigLightRow *ifig_region_render(const IfigFigure *figure, uint32_t left, uint32_t top,
                                       uint32_t side, IfigRegionWork *work);

/* finer.c: how much finer a figure is rendered whose wavelengths have been chosen; and of a square
 * of the picture, in its pixels, the means of those that were rendered. */
void ifig_figure_choose_finer(IfigFigure *figure);
void ifig_finer_means(const IfigFigure *figure, uint32_t left, uint32_t top, uint32_t side,
                      const IfigLightRow *fine, IfigLightRow *mean);

/* carrier_lines.c: whole_turns, of a figure whose wavelengths have been chosen. */
IfigStatus ifig_carrier_look_around(IfigFigure *figure, IfigError *error);

/* raster.c: check the options, and make a raster ready for a lamp. */
IfigStatus ifig_raster_create(const IfigFigureOptions *options, const IfigLamp *lamp,
                              IfigRaster *raster, IfigError *error);

/* symmetry.c: of a figure whose wavelengths have been chosen. */
IfigSymmetry ifig_figure_symmetry(const IfigFigure *figure);

/* What fills the tiles of a raster: open makes a thread's own room, render fills a square of the
 * picture and returns its rows, which stay until the next call; what lies outside the picture or
 * its disc is not looked at. */
typedef struct IfigTileSource {
    const void *picture;
    IfigStatus (*open)(const void *picture, void **work, IfigError *error);
    const IfigLightRow *(*render)(const void *picture, uint32_t left, uint32_t top, uint32_t side,
                                  void *work);
    void (*close)(void *work);
} IfigTileSource;

/* render.c: ifig_figure_render_rectangle for any source of tiles; and whole rows as a rectangle. */
IfigStatus ifig_raster_render(const IfigRaster *raster, const IfigTileSource *source,
                              IfigPixelFormat format, const IfigRectangle *rectangle, void *pixels,
                              IfigError *error);
IfigRectangle ifig_raster_rows(const IfigRaster *raster, uint32_t first_row, uint32_t row_count);

/* pixels.c: one row of a region's XYZ to the caller's format, with the disc's rim. left, top: of
 * the row's first pixel; count pixels that lie inside the picture. */
void ifig_pixels_write(const IfigRaster *raster, IfigPixelFormat format, uint32_t left,
                       uint32_t top, uint32_t count, const IfigLightRow *light, void *row);
/* The share of a pixel that lies within the disc of a picture, from its centre's distance to the
 * rim; radius of the disc in pixels. */
double ifig_share_in_disc(double radius, uint32_t column, uint32_t row);
void ifig_code_table(IfigRaster *raster);
size_t ifig_pixel_bytes(IfigPixelFormat format);

/* threads.c: let work(job) run in as many threads at once as are wanted (0: one for each
 * processor), no more than there are pieces of work, the caller's own among them. The job deals the
 * pieces. */
void ifig_run_threads(int threads, uint32_t pieces, void *(*work)(void *), void *job);

#endif
