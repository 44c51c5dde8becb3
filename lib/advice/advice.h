/* SPDX-License-Identifier: MIT */
/* Room 9: advice. Enters: species and observations. Leaves: what tells them apart, in an order of
 * how surely it is seen. */
#ifndef IFIG_ADVICE_ROOM_H
#define IFIG_ADVICE_ROOM_H

#include "interfig/advice.h"
#include "polariscope.h"

#endif
