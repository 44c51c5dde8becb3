/* SPDX-License-Identifier: MIT */
/* Places of a figure: from directions in the stone to points of the sheet. */
#include "figure_plate.h"

#include <math.h>

IfigStatus ifig_view_open(const IfigScene *scene, const IfigReading *reading, IfigFigureFrame frame,
                          IfigFigureView *view, IfigError *error)
{
    *view = (IfigFigureView){.scene = scene, .reading = reading, .frame = frame};
    if (reading == NULL) {
        return IFIG_OK;
    }
    const IfigLayer *const layer = &scene->layers[0];
    const IfigStatus status =
        ifig_orientation_matrix(layer->species, &layer->orientation, view->rotation, error);
    return status == IFIG_OK
               ? ifig_optic_axes(layer->species, reading->wavelength_nm, &view->axes, error)
               : status;
}

IfigPoint ifig_view_at(const IfigFigureView *view, double x, double y)
{
    return (IfigPoint){view->frame.centre.x + view->frame.radius * x,
                       view->frame.centre.y - view->frame.radius * y};
}

int ifig_view_ray(const IfigFigureView *view, double theta_deg, double phi_deg, IfigPoint *at)
{
    double x, y;
    if (!(theta_deg >= 0.0 && theta_deg < 90.0) ||
        ifig_instrument_position(&view->scene->instrument, theta_deg, phi_deg, &x, &y, NULL) !=
            IFIG_OK) {
        return 0;
    }
    *at = ifig_view_at(view, x, y);
    return hypot(x, y) <= 1.0;
}

static double dot(const double a[3], const double b[3])
{
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

static void to_lab(const IfigFigureView *view, const double crystal[3], double lab[3])
{
    for (int row = 0; row < 3; row++) {
        lab[row] = dot(view->rotation[row], crystal);
    }
}

int ifig_view_direction(const IfigFigureView *view, const double crystal[3], IfigPoint *at)
{
    double lab[3];
    to_lab(view, crystal, lab);
    const double up = lab[2] < 0.0 ? -view->axes.n[1] : view->axes.n[1];
    const double sine =
        hypot(lab[0], lab[1]) * view->axes.n[1] / view->scene->instrument.immersion_index;
    return sine < 1.0 && ifig_view_ray(view, asin(sine) / IFIG_DEGREE,
                                       atan2(up * lab[1], up * lab[0]) / IFIG_DEGREE, at);
}

/* u B v with the impermeability B = sum of d d / n^2 over the principal directions (Born & Wolf,
 * Principles of Optics, 15.2). */
static double impermeability(const IfigFigureView *view, const double u[3], const double v[3])
{
    const IfigOpticAxes *const axes = &view->axes;
    const int is_positive = axes->optic_sign > 0;
    double lab[3];
    if (axes->count == 1) {
        const double ordinary = axes->n[1], extraordinary = axes->n[is_positive ? 2 : 0];
        to_lab(view, axes->axis[0], lab);
        return dot(u, v) / (ordinary * ordinary) +
               (1.0 / (extraordinary * extraordinary) - 1.0 / (ordinary * ordinary)) * dot(u, lab) *
                   dot(v, lab);
    }
    const double *const along[3] = {is_positive ? axes->obtuse_bisectrix : axes->acute_bisectrix,
                                    axes->optic_normal,
                                    is_positive ? axes->acute_bisectrix : axes->obtuse_bisectrix};
    double sum = 0.0;
    for (int i = 0; i < 3; i++) {
        to_lab(view, along[i], lab);
        sum += dot(u, lab) * dot(v, lab) / (axes->n[i] * axes->n[i]);
    }
    return sum;
}

int ifig_view_slow(const IfigFigureView *view, double x, double y, double *azimuth_deg)
{
    static const double least_share = 0.04; /* of the stone's birefringence */
    const IfigOpticAxes *const axes = &view->axes;
    double theta, phi;
    if (axes->count == 0 ||
        ifig_instrument_direction(&view->scene->instrument, x, y, &theta, &phi, NULL) != IFIG_OK) {
        return 0;
    }
    const double sine =
        fmin(view->scene->instrument.immersion_index * sin(theta * IFIG_DEGREE) / axes->n[1], 1.0);
    const double cosine = sqrt(1.0 - sine * sine);
    const double c = cos(phi * IFIG_DEGREE), s = sin(phi * IFIG_DEGREE);
    const double along[3] = {cosine * c, cosine * s, -sine}, across[3] = {-s, c, 0.0};
    const double difference =
        impermeability(view, along, along) - impermeability(view, across, across);
    const double mixed = 2.0 * impermeability(view, along, across);
    const double most = 1.0 / (axes->n[0] * axes->n[0]) - 1.0 / (axes->n[2] * axes->n[2]);
    /* Where B is largest the index is least: the fast wave. */
    *azimuth_deg = phi + 0.5 * atan2(mixed, difference) / IFIG_DEGREE + 90.0;
    return hypot(difference, mixed) > least_share * most;
}

/* The scene at the reading's wavelength, without its plate, at a multiple of its thickness. */
static int probe(const IfigFigureView *view, double theta_deg, double phi_deg, double multiple,
                 IfigProbe *out)
{
    IfigLayer layer = view->scene->layers[0];
    IfigScene scene = *view->scene;
    layer.thickness_mm *= multiple;
    scene.layers = &layer;
    scene.instrument.plate.material = IFIG_PLATE_NONE;
    return ifig_probe(&scene, theta_deg, phi_deg, view->reading->wavelength_nm, out, NULL) ==
               IFIG_OK &&
           !out->wave.is_dark;
}

double ifig_view_retardation(const IfigFigureView *view, double theta_deg, double phi_deg)
{
    IfigProbe here;
    return probe(view, theta_deg, phi_deg, 1.0, &here) ? here.wave.retardation_nm : (double)NAN;
}

/* The transmittance, averaged over the phase between the two waves: it goes as the cosine of that
 * phase, so that four thicknesses a quarter of a turn apart give the mean. */
static double envelope(const IfigFigureView *view, double x, double y)
{
    enum { QUARTERS = 4 };
    double theta, phi, sum = 0.0;
    IfigProbe here;
    if (ifig_instrument_direction(&view->scene->instrument, x, y, &theta, &phi, NULL) != IFIG_OK ||
        !probe(view, theta, phi, 1.0, &here)) {
        return (double)NAN;
    }
    const double nm = here.wave.retardation_nm;
    for (int i = 0; i < QUARTERS; i++) {
        const double more =
            nm > 0.0 ? view->reading->wavelength_nm * i / (QUARTERS * nm) : HUGE_VAL;
        if (i > 0 && !probe(view, theta, phi, 1.0 + more, &here)) {
            return (double)NAN;
        }
        sum += here.transmittance;
    }
    return sum / QUARTERS;
}

size_t ifig_view_brush(const IfigFigureView *view, size_t brush,
                       IfigPoint points[IFIG_BRUSH_POINTS])
{
    static const double step = 0.06, turn_deg = 1.2, dark = 0.2;
    enum { TURNS = 7 };
    double azimuth = view->reading->brush_azimuth_deg[brush];
    for (size_t i = 0; i < IFIG_BRUSH_POINTS; i++) {
        const double r = 1.0 - step * (double)(i + 1), before = azimuth;
        double least = HUGE_VAL;
        for (int j = -TURNS; j <= TURNS; j++) {
            const double at = (before + turn_deg / r * j) * IFIG_DEGREE;
            const double light = envelope(view, r * cos(at), r * sin(at));
            if (light < least) {
                least = light;
                azimuth = at / IFIG_DEGREE;
            }
        }
        if (!(least < dark * view->reading->brightest)) {
            return i;
        }
        points[i] =
            ifig_view_at(view, r * cos(azimuth * IFIG_DEGREE), r * sin(azimuth * IFIG_DEGREE));
    }
    return IFIG_BRUSH_POINTS;
}

/* A direction of the optic axial plane, `turn` from where the plane meets that of the stone. */
static int plane_point(const IfigFigureView *view, double turn, IfigPoint *at)
{
    const double *const acute = view->axes.acute_bisectrix, *const obtuse =
                                                                view->axes.obtuse_bisectrix;
    double lab_acute[3], lab_obtuse[3], way[3];
    to_lab(view, acute, lab_acute);
    to_lab(view, obtuse, lab_obtuse);
    const double from = atan2(-lab_acute[2], lab_obtuse[2]) + turn;
    for (int k = 0; k < 3; k++) {
        way[k] = cos(from) * acute[k] + sin(from) * obtuse[k];
    }
    return ifig_view_direction(view, way, at);
}

/* The edge of what is seen between a turn that is and one that is not. */
static double edge_of(const IfigFigureView *view, double seen, double unseen)
{
    enum { HALVINGS = 30 };
    IfigPoint at;
    for (int i = 0; i < HALVINGS; i++) {
        const double middle = 0.5 * (seen + unseen);
        if (plane_point(view, middle, &at)) {
            seen = middle;
        } else {
            unseen = middle;
        }
    }
    return seen;
}

size_t ifig_view_axial_plane(const IfigFigureView *view, IfigPoint points[IFIG_TRACE_POINTS])
{
    enum { STEPS = 1440 };
    const double step = IFIG_PI / STEPS;
    double first = -1.0, last = -1.0;
    for (int i = 1; i < STEPS; i++) {
        if (plane_point(view, step * i, &points[0])) {
            first = first < 0.0 ? step * i : first;
            last = step * i;
        }
    }
    if (first < 0.0 || !(last > first)) {
        return 0;
    }
    first = edge_of(view, first, first - step);
    last = edge_of(view, last, last + step);
    for (int i = 0; i < IFIG_TRACE_POINTS; i++) {
        const double share = (double)i / (IFIG_TRACE_POINTS - 1);
        if (!plane_point(view, first + share * (last - first), &points[i])) {
            points[i] = (IfigPoint){NAN, NAN};
        }
    }
    return IFIG_TRACE_POINTS;
}
