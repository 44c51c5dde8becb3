/* SPDX-License-Identifier: MIT */
#include "base.h"
#include "species_test.h"

/* n at D, G and B, computed apart from this library from the published coefficients, which are
 * those of the refractiveindex.info database (CC0), by its table of formulas; 0 where the published
 * range does not reach. Tolerance: the five decimals printed. */
static const struct {
    const char *key;
    int axis;
    double at_d, at_g, at_b;
} published[] = {
    {"quartz", 0, 1.54421, 1.55428, 1.54097}, /* type 2, G. Ghosh, Opt. Commun. 163, 95 (1999) */
    {"quartz", 2, 1.55331, 1.56372, 1.54996},
    {"corundum", 0, 1.76808, 1.78180, 1.76369}, /* type 1, Malitson & Dodge (1972) */
    {"corundum", 2, 1.76000, 1.77345, 1.75570},
    {"calcite", 0, 1.65834, 1.67577, 1.65302}, /* type 2, Ghosh (1999) */
    {"calcite", 2, 1.48613, 1.49430, 1.48371},
    {"diamond", 0, 2.41726, 2.45172, 2.40728}, /* type 1, F. Peter, Z. Phys. 15, 358 (1923) */
    {"cubic_zirconia", 1, 2.15846, 2.20546, 2.14506}, /* type 1, Wood & Nassau (1982) */
    {"rutile", 0, 2.61291, 2.86904, 2.55673},         /* type 4, Devore, JOSA 41, 416 (1951) */
    {"rutile", 2, 2.90865, 3.23678, 2.83810},
    {"ktp", 0, 1.76774, 1.80991, 1.75640}, /* type 4, Kato & Takaoka (2002) */
    {"ktp", 1, 1.77755, 1.82436, 1.76528},
    {"ktp", 2, 1.87337, 1.93770, 1.85659},
    {"chrysoberyl", 0, 1.74078, 1.75350, 1.73667}, /* type 4, Loiko & Major (2016) */
    {"chrysoberyl", 1, 1.74273, 1.75572, 1.73857},
    {"chrysoberyl", 2, 1.74836, 1.76162, 1.74410},
    {"zincite", 0, 2.00274, 0.0, 1.97618}, /* type 4 with a power of L, Bond (1965) */
    {"zincite", 2, 2.01921, 0.0, 1.99204},
    {"periclase", 0, 1.73748, 1.75576, 1.73198},  /* type 4, Stephens & Malitson (1952) */
    {"halite", 0, 1.54410, 1.56123, 1.53917},     /* type 1, six poles, Li (1976) */
    {"glass_lead", 0, 1.61989, 1.64325, 1.61329}, /* type 2, a maker's catalogue of glass F2 */
};

START_TEST(published_formulas_give_the_published_indices)
{
    for (size_t i = 0; i < sizeof published / sizeof *published; i++) {
        const IfigSpecies *species = builtin(published[i].key);
        const double wavelength[3] = {589.3, 430.8, 686.7};
        const double expected[3] = {published[i].at_d, published[i].at_g, published[i].at_b};
        for (int line = 0; line < 3; line++) {
            double n = index_at(species, published[i].axis, wavelength[line]);
            ck_assert_msg(expected[line] == 0.0 || fabs(n - expected[line]) < 2e-5,
                          "%s axis %d at %g nm: %.6f, not %.5f", published[i].key,
                          published[i].axis, wavelength[line], n, expected[line]);
        }
    }
}
END_TEST

/* Coefficients of types 3, 5 and 6 that no gem of the catalogue has or that are not printed with
 * n; n by hand. */
START_TEST(formula_types_3_5_and_6_are_what_they_say)
{
    /* 3: n^2 = 2 + 0.01 L^-2; 5: n = 1.5 + 0.004 L^-2 - 0.0001 L^-4, both at L = 0.5 */
    const IfigDispersionFormula power = {3, 0.2, 2.0, {2.0, 0.01, -2.0}};
    ck_assert_double_eq_tol(ifig_formula_index(&power, 500.0), sqrt(2.04), 1e-14);
    const IfigDispersionFormula cauchy = {5, 0.2, 2.0, {1.5, 0.004, -2.0, -0.0001, -4.0}};
    ck_assert_double_eq_tol(ifig_formula_index(&cauchy, 500.0), 1.5144, 1e-14);
    /* air: P. E. Ciddor, Appl. Opt. 35, 1566 (1996), 15 C; n - 1 = 2.7725e-4 at 589.3 nm by the
     * equation */
    const IfigDispersionFormula air = {
        6, 0.23, 1.69, {0.0, 0.05792105, 238.0185, 0.00167917, 57.362}};
    ck_assert_double_eq_tol(ifig_formula_index(&air, 589.3),
                            1.0 + 0.05792105 / (238.0185 - 1.0 / (0.5893 * 0.5893)) +
                                0.00167917 / (57.362 - 1.0 / (0.5893 * 0.5893)),
                            1e-15);
    const IfigDispersionFormula none = {0, 0.2, 2.0, {1.5}};
    ck_assert(isnan(ifig_formula_index(&none, 500.0)));
}
END_TEST

START_TEST(a_formula_is_used_as_it_stands_beyond_its_range)
{
    IfigDispersionFormula formula = {5, 0.45, 0.70, {1.5, 0.004, -2.0, 0.0003, -4.0}};
    double u = 1.0 / (0.38 * 0.38);
    ck_assert_double_eq_tol(ifig_formula_index(&formula, 380.0), 1.5 + 0.004 * u + 0.0003 * u * u,
                            1e-14);
}
END_TEST

START_TEST(quartz_at_d_is_1_54421_and_1_55331) /* Ghosh (1999) */
{
    ck_assert_double_eq_tol(index_at(builtin("quartz"), 0, 589.3), 1.54421, 2e-5);
    ck_assert_double_eq_tol(index_at(builtin("quartz"), 2, 589.3), 1.55331, 2e-5);
}
END_TEST

START_TEST(b_g_of_diamond_corundum_and_zirconia_is_the_trades)
{
    /* 0.044, 0.018, 0.060: Schumann, Gemstones of the World, 4th ed. (2009) */
    static const struct {
        const char *key;
        double bg;
    } stones[] = {{"diamond", 0.044}, {"corundum", 0.018}, {"cubic_zirconia", 0.060}};
    for (size_t i = 0; i < 3; i++) {
        const IfigSpecies *species = builtin(stones[i].key);
        ck_assert_double_eq_tol(index_at(species, 0, 430.8) - index_at(species, 0, 686.7),
                                stones[i].bg, 5e-4);
    }
}
END_TEST

START_TEST(cauchy_stones_keep_the_indices_and_b_g_of_the_table)
{
    const IfigSpecies *zircon = builtin("zircon_high"); /* B-G 0.039: Schumann (2009) */
    ck_assert_double_eq_tol(index_at(zircon, 0, 589.3), 1.925, 1e-12);
    ck_assert_double_eq_tol(index_at(zircon, 2, 589.3), 1.984, 1e-12);
    for (int axis = 0; axis < 3; axis++) {
        ck_assert_double_eq_tol(index_at(zircon, axis, 430.8) - index_at(zircon, axis, 686.7),
                                0.039, 1e-12);
    }
}
END_TEST

START_TEST(every_species_has_indices_from_1_to_10_that_fall_with_wavelength)
{
    IfigCatalogue *catalogue = make_catalogue();
    for (size_t i = 0; i < ifig_catalogue_count(catalogue); i++) {
        const IfigSpecies *species = ifig_catalogue_at(catalogue, i);
        int has_dispersion = !isnan(species->record.facts.dispersion_bg) ||
                             species->record.facts.is_measured_dispersion;
        for (int nm = 360; nm < 830; nm += 5) {
            for (int axis = 0; axis < 3; axis++) {
                double n = index_at(species, axis, nm);
                ck_assert(n >= 1.0 && n <= 10.0);
                ck_assert_msg(!has_dispersion || index_at(species, axis, nm + 5) < n,
                              "%s axis %d at %d nm", species->record.text[0], axis, nm);
            }
        }
    }
    ifig_catalogue_free(catalogue);
}
END_TEST

START_TEST(biaxial_stones_show_their_typical_two_v_at_d)
{
    IfigCatalogue *catalogue = make_catalogue();
    int count = 0;
    for (size_t i = 0; i < ifig_catalogue_count(catalogue); i++) {
        const IfigSpecies *species = ifig_catalogue_at(catalogue, i);
        const IfigSpeciesFacts *facts = &species->record.facts;
        if (facts->character == IFIG_BIAXIAL && !facts->is_measured_dispersion) {
            ck_assert_double_eq_tol(two_v_at(species, 589.3), facts->two_v_deg, 1e-6);
            ck_assert_double_eq_tol(index_at(species, 1, 589.3), facts->n[1], 0.002);
            count++;
        }
    }
    ck_assert_int_gt(count, 40);
    ifig_catalogue_free(catalogue);
}
END_TEST

START_TEST(two_v_at_c_and_f_is_that_of_the_table)
{
    const IfigSpecies *sphene = builtin("sphene"); /* r>v strong: 31.75 at C, 25.75 at F nominal */
    ck_assert_double_eq_tol(two_v_at(sphene, 656.3), sphene->record.two_v_c_deg, 1e-6);
    ck_assert_double_eq_tol(two_v_at(sphene, 486.1), sphene->record.two_v_f_deg, 1e-6);
    ck_assert_double_gt(two_v_at(sphene, 700.0), two_v_at(sphene, 450.0));
}
END_TEST

START_TEST(brookite_is_uniaxial_near_562_nm_and_its_plane_crosses)
{
    /* Dana, System of Mineralogy, 2E 55 2' red, 30 16' yellow, 33 48' green crossed, from memory */
    const IfigSpecies *brookite = builtin("brookite");
    ck_assert_double_gt(index_at(brookite, 1, 650.0), index_at(brookite, 0, 650.0));
    ck_assert_double_lt(index_at(brookite, 1, 480.0), index_at(brookite, 0, 480.0));
    ck_assert_double_gt(two_v_at(brookite, 567.0), 0.0);
    ck_assert_double_lt(two_v_at(brookite, 557.0), 0.0);
    /* apparent angle at the thallium line, 535 nm: sin E = n_X sin V, n_X being the middle index */
    double v = 0.5 * fabs(two_v_at(brookite, 535.0)) * IFIG_DEGREE;
    double two_e = 2.0 * asin(index_at(brookite, 0, 535.0) * sin(v)) / IFIG_DEGREE;
    ck_assert_double_eq_tol(two_e, 33.8, 3.0);
}
END_TEST

START_TEST(no_stone_of_dispersed_axes_runs_away_in_the_violet)
{
    /* Beyond C and F 2V goes on as it went: from F to 380 nm no further than the straight line in
     * sin^2 V, and n_Y within the other two or crossed by less than half their distance. */
    IfigCatalogue *catalogue = make_catalogue();
    for (size_t i = 0; i < ifig_catalogue_count(catalogue); i++) {
        const IfigSpecies *species = ifig_catalogue_at(catalogue, i);
        if (species->record.facts.character != IFIG_BIAXIAL) {
            continue;
        }
        for (int nm = 380; nm <= 780; nm += 5) {
            double n[3];
            ck_assert_int_eq(ifig_species_indices(species, nm, n, NULL), IFIG_OK);
            double share = ifig_beta_share_of_indices(n);
            ck_assert_msg(share > -0.5 && share < 1.5, "%s at %d nm", species->record.text[0], nm);
        }
    }
    ifig_catalogue_free(catalogue);
}
END_TEST

START_TEST(the_share_of_beta_and_the_angle_undo_each_other)
{
    static const double angles[] = {-45.0, -20.0, -1.0, 0.0, 0.5, 30.0, 60.0, 89.9};
    for (size_t i = 0; i < sizeof angles / sizeof *angles; i++) {
        for (int sign = -1; sign <= 1; sign += 2) {
            double share = ifig_beta_share_of_angle(angles[i], sign);
            ck_assert_double_eq_tol(ifig_acute_angle_deg(share), angles[i], 1e-7);
            ck_assert_int_eq(share > 0.5, sign < 0);
        }
    }
}
END_TEST

START_TEST(wavelengths_outside_360_to_830_nm_are_refused)
{
    static const double wrong[] = {359.999, 830.001, 0.0, -500.0, NAN, INFINITY};
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        double n[3] = {7.0, 7.0, 7.0};
        IfigError error = IFIG_ERROR_INIT;
        ck_assert_int_eq(ifig_species_indices(builtin("quartz"), wrong[i], n, &error),
                         IFIG_ERROR_RANGE);
        ck_assert_ptr_nonnull(strstr(error.message, "between 360 and 830 nm"));
        ck_assert_double_eq(n[0], 7.0);
    }
    double n[3];
    ck_assert_int_eq(ifig_species_indices(NULL, 500.0, n, NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_species_indices(builtin("quartz"), 500.0, NULL, NULL),
                     IFIG_ERROR_ARGUMENT);
}
END_TEST

START_TEST(axes_of_monoclinic_stones_turn_from_c_to_f_and_stand_at_d)
{
    const IfigSpecies *gypsum = builtin("gypsum");
    double total = gypsum->record.facts.axes_turn_deg;
    ck_assert_double_gt(total, 0.0);
    ck_assert_double_eq_tol(ifig_species_axes_turn_deg(gypsum, 589.3), 0.0, 1e-12);
    ck_assert_double_eq_tol(ifig_species_axes_turn_deg(gypsum, 486.1) -
                                ifig_species_axes_turn_deg(gypsum, 656.3),
                            total, 1e-12);
    ck_assert_double_eq(ifig_species_axes_turn_deg(builtin("topaz_f"), 486.1), 0.0);
    ck_assert_double_eq(ifig_species_axes_turn_deg(NULL, 486.1), 0.0);
    ck_assert_double_nan(ifig_species_axes_turn_deg(gypsum, 359.9));
    ck_assert_double_nan(ifig_species_axes_turn_deg(gypsum, 830.1));
    ck_assert_double_nan(ifig_species_axes_turn_deg(gypsum, 0.0));
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("indices");
    tcase_add_test(facts, published_formulas_give_the_published_indices);
    tcase_add_test(facts, formula_types_3_5_and_6_are_what_they_say);
    tcase_add_test(facts, a_formula_is_used_as_it_stands_beyond_its_range);
    tcase_add_test(facts, quartz_at_d_is_1_54421_and_1_55331);
    tcase_add_test(facts, b_g_of_diamond_corundum_and_zirconia_is_the_trades);
    tcase_add_test(facts, cauchy_stones_keep_the_indices_and_b_g_of_the_table);
    tcase_add_test(facts, every_species_has_indices_from_1_to_10_that_fall_with_wavelength);
    tcase_add_test(facts, biaxial_stones_show_their_typical_two_v_at_d);
    tcase_add_test(facts, two_v_at_c_and_f_is_that_of_the_table);
    tcase_add_test(facts, brookite_is_uniaxial_near_562_nm_and_its_plane_crosses);
    tcase_add_test(facts, no_stone_of_dispersed_axes_runs_away_in_the_violet);
    tcase_add_test(facts, the_share_of_beta_and_the_angle_undo_each_other);
    tcase_add_test(facts, wavelengths_outside_360_to_830_nm_are_refused);
    tcase_add_test(facts, axes_of_monoclinic_stones_turn_from_c_to_f_and_stand_at_d);
    return run_case(facts, "indices");
}
