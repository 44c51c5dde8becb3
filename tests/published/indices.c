/* SPDX-License-Identifier: MIT */
/* Section J of the check values: refractive indices of the published formulas. */
#include "optics_test.h"

static double index_of(const char *key, int axis, double wavelength_nm)
{
    double n[3];
    IfigError error = IFIG_ERROR_INIT;
    ck_assert_msg(ifig_species_indices(builtin(key), wavelength_nm, n, &error) == IFIG_OK, "%s",
                  error.message);
    return n[axis];
}

static double b_to_g(const char *key)
{
    return index_of(key, 0, 430.8) - index_of(key, 0, 686.7);
}

START_TEST(j1_j2_quartz_and_calcite_have_the_indices_of_ghosh)
{
    /* G. Ghosh, Opt. Commun. 163, 95 (1999); a physics page prints 1.54422 and 1.55332 for quartz.
     */
    ck_assert_double_eq_tol(index_of("quartz", 0, 589.3), 1.54421, 2e-5);
    ck_assert_double_eq_tol(index_of("quartz", 2, 589.3), 1.55331, 2e-5);
    ck_assert_double_eq_tol(index_of("calcite", 0, 589.3), 1.65834, 2e-5);
    ck_assert_double_eq_tol(index_of("calcite", 2, 589.3), 1.48613, 2e-5);
}
END_TEST

START_TEST(j3_to_j5_the_b_to_g_interval_is_that_of_the_trade)
{
    /* J3 diamond: Peter (1923); 0.044 in Schumann, Gemstones of the World. J4 corundum: Malitson &
     * Dodge (1972); 0.018, common practice, no source. J5 cubic zirconia: Wood & Nassau (1982);
     * 0.060 in Schumann. */
    ck_assert_double_eq_tol(index_of("diamond", 0, 589.3), 2.4173, 1e-4);
    ck_assert_double_eq_tol(b_to_g("diamond"), 0.0444, 2e-4);
    ck_assert_double_eq_tol(b_to_g("corundum"), 0.0181, 2e-4);
    ck_assert_double_eq_tol(index_of("cubic_zirconia", 0, 589.3), 2.1585, 1e-4);
    ck_assert_double_eq_tol(b_to_g("cubic_zirconia"), 0.0604, 2e-4);
}
END_TEST

typedef struct IndexRow {
    const char *key;
    int axis;
    double at_d, at_g, at_b; /* 0 where the published range does not reach */
} IndexRow;

/* J6: computed apart from the library from the coefficients of the refractiveindex.info database
 * (CC0), whose sources stand above the rows. */
static const IndexRow INDICES[] = {
    /* G. Ghosh, Opt. Commun. 163, 95 (1999) */
    {"quartz", 0, 1.54421, 1.55428, 1.54097},
    {"quartz", 2, 1.55331, 1.56372, 1.54996},
    /* Malitson & Dodge, J. Opt. Soc. Am. 62, 1405 (1972) */
    {"corundum", 0, 1.76808, 1.78180, 1.76369},
    {"corundum", 2, 1.76000, 1.77345, 1.75570},
    /* Loiko & Major, Opt. Mater. Express 6, 2177 (2016) */
    {"chrysoberyl", 1, 1.74273, 1.75572, 1.73857},
    {"chrysoberyl", 2, 1.74836, 1.76162, 1.74410},
    {"chrysoberyl", 0, 1.74078, 1.75350, 1.73667},
    /* Ghosh (1999) */
    {"calcite", 0, 1.65834, 1.67577, 1.65302},
    {"calcite", 2, 1.48613, 1.49430, 1.48371},
    /* F. Peter, Z. Phys. 15, 358 (1923) */
    {"diamond", 0, 2.41726, 2.45172, 2.40728},
    /* Zelmon, Small & Page, Appl. Opt. 37, 4933 (1998) */
    {"yag", 0, 1.83265, 1.85351, 1.82629},
    /* Wood & Nassau, Appl. Opt. 21, 2978 (1982) */
    {"cubic_zirconia", 0, 2.15846, 2.20546, 2.14506},
    /* W. L. Bond, J. Appl. Phys. 36, 1674 (1965) */
    {"strontium_titanate", 0, 2.40799, 2.57851, 2.36893},
    /* J. R. Devore, J. Opt. Soc. Am. 41, 416 (1951) */
    {"rutile_synthetic", 0, 2.61291, 2.86904, 2.55673},
    {"rutile_synthetic", 2, 2.90865, 3.23678, 2.83810},
    /* S. Wang et al., Laser Photonics Rev. 7, 831 (2013) */
    {"moissanite", 0, 2.64743, 0, 2.62312},
    {"moissanite", 2, 2.68897, 0, 2.66215},
    /* Zelmon, Small & Jundt, J. Opt. Soc. Am. B 14, 3319 (1997) */
    {"lithium_niobate", 0, 2.29967, 2.39855, 2.27376},
    {"lithium_niobate", 2, 2.21351, 2.29755, 2.19134},
    /* Daimon & Masumura, Appl. Opt. 41, 5275 (2002) */
    {"fluorite", 0, 1.43384, 1.43980, 1.43199},
    /* M. J. Dodge, Appl. Opt. 23, 1980 (1984) */
    {"sellaite", 0, 1.37771, 1.38230, 1.37624},
    {"sellaite", 2, 1.38952, 1.39431, 1.38799},
    /* Kato & Takaoka, Appl. Opt. 41, 5040 (2002) */
    {"ktp", 0, 1.76774, 1.80991, 1.75640},
    {"ktp", 1, 1.77755, 1.82436, 1.76528},
    {"ktp", 2, 1.87337, 1.93770, 1.85659},
    /* Bond (1965) */
    {"scheelite", 0, 1.92018, 0, 1.90987},
    {"scheelite", 2, 1.93696, 0, 1.92595},
    /* Bond (1965) */
    {"powellite", 0, 1.99224, 0, 1.97884},
    {"powellite", 2, 2.00187, 0, 1.98724},
    /* Malitson, in Handbook of Optics, 3rd ed., vol. 4 (2009) */
    {"wulfenite", 0, 2.40883, 0, 2.36496},
    {"wulfenite", 2, 2.27669, 0, 2.24734},
    /* Bond (1965) */
    {"zincite", 0, 2.00274, 0, 1.97618},
    {"zincite", 2, 2.01921, 0, 1.99204},
    /* M. Debenham, Appl. Opt. 23, 2238 (1984) */
    {"sphalerite", 0, 2.36694, 2.49745, 2.33498},
    /* Edwards & White, in Handbook of Optical Constants of Solids II (1991) */
    {"bromellite", 0, 1.71855, 0, 1.71533},
    {"bromellite", 2, 1.73402, 0, 1.73017},
    /* Bond, Boyd & Carter, J. Appl. Phys. 38, 4090 (1967) */
    {"cinnabar", 0, 0, 0, 2.83426},
    {"cinnabar", 2, 0, 0, 3.16530},
    /* N. Uchida, Phys. Rev. B 4, 3736 (1971) */
    {"tellurium_dioxide", 0, 2.27427, 2.39015, 2.24587},
    {"tellurium_dioxide", 2, 2.42967, 2.56625, 2.39633},
    /* Stephens & Malitson, J. Res. Natl. Bur. Stand. 49, 249 (1952) */
    {"periclase", 0, 1.73748, 1.75576, 1.73198},
    /* H. H. Li, J. Phys. Chem. Ref. Data 5, 329 (1976) */
    {"halite", 0, 1.54410, 1.56123, 1.53917},
    /* I. H. Malitson, J. Opt. Soc. Am. 55, 1205 (1965) */
    {"glass_silica", 0, 1.45840, 1.46712, 1.45560},
    /* maker's catalogue of a borosilicate crown */
    {"glass", 0, 1.51673, 1.52720, 1.51343},
    /* maker's catalogue of a flint */
    {"glass_lead", 0, 1.61989, 1.64325, 1.61329},
    /* Sultanova et al., Acta Phys. Pol. A 116, 585 (2009) */
    {"plastic_pmma", 0, 1.49054, 0, 1.48693},
    /* Sultanova et al. (2009) */
    {"plastic_polystyrene", 0, 1.59145, 0, 1.58372},
    /* Wood & Nassau, Appl. Opt. 29, 3704 (1990), from memory */
    {"ggg", 0, 1.97014, 2.00472, 1.96026},
};

START_TEST(j6_every_formula_gives_its_index_at_d_g_and_b)
{
    for (size_t i = 0; i < sizeof INDICES / sizeof *INDICES; i++) {
        const IndexRow *row = &INDICES[i];
        const double nm[3] = {589.3, 430.8, 686.7}, n[3] = {row->at_d, row->at_g, row->at_b};
        for (int line = 0; line < 3; line++) {
            double found = index_of(row->key, row->axis, nm[line]);
            ck_assert_msg(n[line] == 0 || fabs(found - n[line]) < 2e-5,
                          "%s axis %d at %.1f nm: %.6f, not %.5f", row->key, row->axis, nm[line],
                          found, n[line]);
        }
    }
}
END_TEST

START_TEST(lithium_tantalate_keeps_to_the_measured_values)
{
    /* W. L. Bond, J. Appl. Phys. 36, 1674 (1965): no formula but six values, five of them visible,
     * which the catalogue's Cauchy fit meets within 3.3e-4. (A straight line between 0.5 and 0.6
     * um, 2.18689 at D, lies 6e-4 above any smooth curve through them, so it is no check value.) */
    static const double nm[5] = {450, 500, 600, 700, 800};
    static const double n[2][5] = {{2.2420, 2.2160, 2.1834, 2.1652, 2.1538},
                                   {2.2468, 2.2205, 2.1878, 2.1696, 2.1578}};
    for (int i = 0; i < 5; i++) {
        ck_assert_double_eq_tol(index_of("lithium_tantalate", 0, nm[i]), n[0][i], 3.5e-4);
        ck_assert_double_eq_tol(index_of("lithium_tantalate", 2, nm[i]), n[1][i], 3.5e-4);
    }
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("indices");
    tcase_add_test(facts, j1_j2_quartz_and_calcite_have_the_indices_of_ghosh);
    tcase_add_test(facts, j3_to_j5_the_b_to_g_interval_is_that_of_the_trade);
    tcase_add_test(facts, j6_every_formula_gives_its_index_at_d_g_and_b);
    tcase_add_test(facts, lithium_tantalate_keeps_to_the_measured_values);
    return run_case(facts, "indices");
}
