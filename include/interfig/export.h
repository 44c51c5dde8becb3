/* SPDX-License-Identifier: MIT */
/** @file
 * The one attribute that marks a public function, and C's linkage for programs in C++.
 */
#ifndef INTERFIG_EXPORT_H
#define INTERFIG_EXPORT_H

/** Marks a function that the libraries export. */
#if defined(__GNUC__) || defined(__clang__)
#define IFIG_API __attribute__((visibility("default")))
#else
#define IFIG_API
#endif

/** Opens and closes the declarations of a header: in C++ they keep C's linkage. The initialisers
 *  (IFIG_SCENE_INIT, ...) need C99 or C++20. */
#ifdef __cplusplus
#define IFIG_C_BEGIN extern "C" {
#define IFIG_C_END   }
#else
#define IFIG_C_BEGIN
#define IFIG_C_END
#endif

#endif
