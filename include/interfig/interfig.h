/* SPDX-License-Identifier: MIT */
/** @file
 * interfig: expected interference figures of gemstones. This header includes every room's, in the
 * order the light takes: species, crystal, wave, instrument, light, figure, reading,
 * polariscope, advice; then image, which writes files, and page, which draws sheets: each lives in
 * a library of its own.
 *
 * Frames and signs, once for all rooms: the lab frame is right-handed, x east (right in the
 * picture), y north, z toward the observer, and light travels along +z. Azimuths count
 * counter-clockwise from east as the observer sees them. Degrees, nanometres and millimetres at
 * every boundary, and each name says which. The polariser passes east-west and the analyser
 * north-south unless told.
 *
 * A figure is evidence, not an identification.
 */
#ifndef INTERFIG_INTERFIG_H
#define INTERFIG_INTERFIG_H

#include "interfig/status.h"
#include "interfig/species.h"
#include "interfig/species_record.h"
#include "interfig/crystal.h"
#include "interfig/wave.h"
#include "interfig/instrument.h"
#include "interfig/light.h"
#include "interfig/figure.h"
#include "interfig/reading.h"
#include "interfig/retardation.h"
#include "interfig/polariscope.h"
#include "interfig/advice.h"
#include "interfig/image.h"
#include "interfig/species_file.h"
#include "interfig/page.h"
#include "interfig/page_recipe.h"
#include "interfig/exercise.h"

#endif
