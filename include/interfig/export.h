/* SPDX-License-Identifier: MIT */
/** @file
 * The one attribute that marks a public function.
 */
#ifndef INTERFIG_EXPORT_H
#define INTERFIG_EXPORT_H

#if defined(__GNUC__) || defined(__clang__)
#define IFIG_API __attribute__((visibility("default")))
#else
#define IFIG_API
#endif

#endif
