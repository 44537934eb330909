// SPDX-License-Identifier: GPL-2.0
/*
 * mcp3208-sim: a virtual SPI controller (/dev/spidev0.0) that carries one MCP3208.
 *
 * The converter's own frame is followed bit by bit (Microchip DS21298, serial communication):
 * after a start bit come SGL/DIFF, D2, D1, D0; one clock samples, then a null bit and twelve
 * data bits, most significant first.
 *
 * Parameters:  bus=0  vref_uv=3300000
 * Files in /sys/kernel/debug/mcp3208-sim/ :
 *   ain0..ain7   input voltage in microvolts (rw)
 *   noise_uv     uniform noise of +- this many microvolts on every conversion
 *   silent       1: no answer, the data line stays high, as with a broken wire (rw)
 *   conversions  how many were made (ro)
 */
#include <linux/debugfs.h>
#include <linux/math64.h>
#include <linux/module.h>
#include <linux/platform_device.h>
#include <linux/random.h>
#include <linux/spi/spi.h>

static int bus, vref_uv = 3300000;
module_param(bus, int, 0444);
module_param(vref_uv, int, 0444);

#define INPUTS 8
static u64 ain[INPUTS], conversions;
static u32 noise_uv, silent;

/* The converter's state since chip select fell. */
static struct { bool started; int bits, command; u16 code; } chip;

static s64 volts(int i)
{
	return (s64)READ_ONCE(ain[i]);
}

static u16 convert(int command)
{
	int i = command & 7;
	s64 uv = volts(i);

	if (!(command & 8))			/* differential: each input against its neighbour */
		uv -= volts(i ^ 1);
	if (noise_uv)
		uv += (s64)(get_random_u32() % (2 * noise_uv + 1)) - noise_uv;
	conversions++;
	return (u16)clamp_t(s64, div_s64(uv * 4096, vref_uv), 0, 4095);
}

/* One clock: takes a bit, gives a bit. */
static int clock_bit(int in)
{
	int n, out = 1;				/* high impedance, pulled up */

	if (!chip.started) {
		chip.started = in;
		return 1;
	}
	n = ++chip.bits;
	if (n <= 4)
		chip.command = chip.command << 1 | in;
	else if (n == 5)
		chip.code = convert(chip.command);
	else if (n == 6)
		out = 0;			/* the null bit */
	else if (n <= 18)
		out = chip.code >> (18 - n) & 1;
	else
		out = 0;
	return silent ? 1 : out;
}

static int sim_message(struct spi_controller *ctlr, struct spi_message *msg)
{
	struct spi_transfer *t;

	memset(&chip, 0, sizeof(chip));
	list_for_each_entry(t, &msg->transfers, transfer_list) {
		const u8 *tx = t->tx_buf;
		u8 *rx = t->rx_buf;
		unsigned int i;
		int bit;

		for (i = 0; i < t->len; i++) {
			u8 out = tx ? tx[i] : 0, in = 0;

			for (bit = 7; bit >= 0; bit--)
				in |= clock_bit(out >> bit & 1) << bit;
			if (rx)
				rx[i] = in;
		}
		if (t->cs_change)
			memset(&chip, 0, sizeof(chip));
		msg->actual_length += t->len;
	}
	msg->status = 0;
	spi_finalize_current_message(ctlr);
	return 0;
}

/* Any name in spidev's table will do: it takes no device by its own name. */
static struct spi_board_info board = {
	.modalias = "dh2228fv", .max_speed_hz = 2000000, .chip_select = 0, .mode = SPI_MODE_0,
};

static struct platform_device *pdev;
static struct spi_controller *controller;
static struct dentry *dir;

static int __init sim_init(void)
{
	static const char *const names[INPUTS] = {
		"ain0", "ain1", "ain2", "ain3", "ain4", "ain5", "ain6", "ain7" };
	int i, err;

	pdev = platform_device_register_simple("mcp3208-sim", PLATFORM_DEVID_NONE, NULL, 0);
	if (IS_ERR(pdev))
		return PTR_ERR(pdev);
	controller = spi_alloc_master(&pdev->dev, 0);
	if (!controller) {
		err = -ENOMEM;
		goto no_controller;
	}
	controller->bus_num = bus;
	controller->num_chipselect = 1;
	controller->mode_bits = SPI_CPOL | SPI_CPHA;
	controller->bits_per_word_mask = SPI_BPW_MASK(8);
	controller->transfer_one_message = sim_message;
	err = spi_register_controller(controller);
	if (err) {
		spi_controller_put(controller);
		goto no_controller;
	}
	if (!spi_new_device(controller, &board)) {
		spi_unregister_controller(controller);
		err = -ENODEV;
		goto no_controller;
	}
	dir = debugfs_create_dir("mcp3208-sim", NULL);
	for (i = 0; i < INPUTS; i++)
		debugfs_create_u64(names[i], 0644, dir, &ain[i]);
	debugfs_create_u32("noise_uv", 0644, dir, &noise_uv);
	debugfs_create_u32("silent", 0644, dir, &silent);
	debugfs_create_u64("conversions", 0444, dir, &conversions);
	return 0;

no_controller:
	platform_device_unregister(pdev);
	return err;
}

static void __exit sim_exit(void)
{
	debugfs_remove(dir);
	spi_unregister_controller(controller);
	platform_device_unregister(pdev);
}

module_init(sim_init);
module_exit(sim_exit);
MODULE_DESCRIPTION("Virtual SPI controller with an MCP3208");
MODULE_LICENSE("GPL");
