/* SPDX-License-Identifier: MIT */
/* Loops that a compiler turns into vector code: compiled for several widths, of which the widest
 * that the processor has is taken at run time. All give the same bits. */
#ifndef IFIG_VECTOR_H
#define IFIG_VECTOR_H

#define IFIG_INLINE static inline __attribute__((always_inline))

#if defined(__x86_64__) && defined(__GLIBC__) && defined(__GNUC__) && !defined(__clang__)
#define IFIG_CLONES __attribute__((target_clones("default", "arch=x86-64-v3", "arch=x86-64-v4")))
#else
#define IFIG_CLONES
#endif

#endif
