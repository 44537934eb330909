/* SPDX-License-Identifier: GPL-2.0 */
#ifndef GPIO_PINSIM_H
#define GPIO_PINSIM_H

/* Drives a pin from outside: 0, 1, or -1 to release it. From any context. */
void pinsim_drive(unsigned int off, int level);

#endif
