/* SPDX-License-Identifier: MIT */
/* Adaptation and sRGB against an independent implementation, Little CMS: XYZ under a lamp, adapted
 * to D50 by its own Bradford transform, then through its XYZ and sRGB profiles in doubles. Adapting
 * from the lamp to D50 and on to D65 is, for Bradford, the same as from the lamp to D65. */
#include "light_test.h"

#include <lcms2.h>
#include <math.h>

/* Interference colours: the lamp's XYZ behind a plate of a retardation between crossed polars. */
static void interference_xyz(const IfigSpectrumSamples *samples, double retardation_nm,
                             double xyz[3])
{
    xyz[0] = xyz[1] = xyz[2] = 0.0;
    for (size_t k = 0; k < samples->count; k++) {
        const double wave = sin(3.14159265358979 * retardation_nm / samples->wavelength_nm[k]);
        for (int i = 0; i < 3; i++) {
            xyz[i] += samples->weight[k][i] * wave * wave;
        }
    }
}

/* NULL profiles fail the transform's own check below. */
static cmsHTRANSFORM make_transform(void)
{
    cmsHPROFILE xyz_profile = cmsCreateXYZProfile();
    cmsHPROFILE srgb_profile = cmsCreate_sRGBProfile();
    cmsHTRANSFORM transform =
        cmsCreateTransform(xyz_profile, TYPE_XYZ_DBL, srgb_profile, TYPE_RGB_DBL,
                           INTENT_RELATIVE_COLORIMETRIC, cmsFLAGS_NOOPTIMIZE | cmsFLAGS_NOCACHE);
    cmsCloseProfile(xyz_profile);
    cmsCloseProfile(srgb_profile);
    return transform;
}

START_TEST(little_cms_sees_the_same_interference_colours)
{
    /* Little CMS stores the sRGB primaries as s15.16 (steps of 1.5e-5, up to 3.2 times as much
     * after inversion) and D50 as four digits: 2e-4 of full scale, linear. */
    static const double tolerance = 2e-4;
    IfigLamp *lamp = make_lamp((IfigLampKind)_i);
    IfigSpectrumSamples samples;
    ck_assert_int_eq(ifig_lamp_samples(lamp, &samples, NULL), IFIG_OK);
    cmsHTRANSFORM transform = make_transform();
    ck_assert_ptr_nonnull(transform);
    double white[3];
    ifig_lamp_white(lamp, white);
    const cmsCIEXYZ lamp_white = {white[0], white[1], white[2]};
    int compared = 0;
    for (int retardation = 0; retardation <= 3000; retardation += 5) {
        double xyz[3];
        double own[3];
        interference_xyz(&samples, retardation, xyz);
        ifig_colour_linear(lamp, xyz, 0, own);
        const cmsCIEXYZ under_lamp = {xyz[0], xyz[1], xyz[2]};
        cmsCIEXYZ adapted;
        double rgb[3];
        ck_assert(cmsAdaptToIlluminant(&adapted, &lamp_white, cmsD50_XYZ(), &under_lamp));
        cmsDoTransform(transform, &adapted, rgb, 1);
        for (int i = 0; i < 3; i++) {
            if (own[i] > 0 && own[i] < 1) { /* it may clip what is outside */
                ck_assert_double_eq_tol(ifig_srgb_decode(rgb[i]), own[i], tolerance);
                compared++;
            }
        }
    }
    ck_assert_int_gt(compared, 1200);
    cmsDeleteTransform(transform);
    ifig_spectrum_samples_free(&samples);
    ifig_lamp_free(lamp);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("facts");
    tcase_add_loop_test(facts, little_cms_sees_the_same_interference_colours, 0, 4);
    return run_case(facts, "colour_lcms");
}
