/* SPDX-License-Identifier: MIT */
/* An allocator that refuses on demand. It takes the place of malloc for the whole test program and
 * for the libraries it links (libpng, libyaml, zlib), glibc's own allocator behind it. */
#ifndef IFIG_FAILING_ALLOCATOR_H
#define IFIG_FAILING_ALLOCATOR_H

/* From now on count allocations, and refuse the one numbered `which` (from 1), and, where
 * `persistently`, every later one. 0: refuse none. */
void failing_allocator_arm(long which, int persistently);
/* Serve every allocation again. Returns how many were asked for since it was armed. */
long failing_allocator_disarm(void);
/* Blocks taken and not given back since it was last armed. */
long failing_allocator_live_blocks(void);
/* Allocations refused since it was last armed. */
long failing_allocator_refused(void);

#endif
