// SPDX-License-Identifier: GPL-2.0
/*
 * gpio-pinsim: a virtual GPIO chip (/dev/gpiochipN) with edge interrupts.
 * It stands in for gpio-sim, which Debian's arm64 kernels do not ship.
 *
 * Parameters:  label=pinctrl-bcm2711 (what Pi4J looks for)  lines=58
 * Files in /sys/kernel/debug/gpio-pinsim/ :
 *   drive  write "OFFSET 0|1|z": drive a pin from outside, z releases it
 *          (a released input reads as its pull resistor, or 0 without one)
 *   state  one line per pin that is an output or driven: offset, in/out, level, changes
 *   log    the last 16384 level changes of outputs: monotonic ns, offset, level
 */
#include <linux/debugfs.h>
#include <linux/gpio/driver.h>
#include <linux/interrupt.h>
#include <linux/ktime.h>
#include <linux/module.h>
#include <linux/platform_device.h>
#include <linux/seq_file.h>
#include <linux/spinlock.h>
#include <linux/uaccess.h>
#include "gpio-pinsim.h"

#define MAX_LINES 64
#define LOG_LEN 16384
enum { LOW, HIGH, FLOAT };

static char *label = "pinctrl-bcm2711";
static int lines = 58;
module_param(label, charp, 0444);
module_param(lines, int, 0444);

static DEFINE_RAW_SPINLOCK(lock);	/* guards everything below */
static struct pin { bool out, val; u8 ext, pull; u32 type, changes; } pins[MAX_LINES];
static unsigned long unmasked[BITS_TO_LONGS(MAX_LINES)];
static struct entry { u64 ns; u8 off, val; } ring[LOG_LEN];
static u64 nlog;
static struct gpio_chip chip;

static int level(struct pin *p)
{
	if (p->out)
		return p->val;
	return p->ext != FLOAT ? p->ext : p->pull == HIGH;
}

static void put(unsigned int off, int val)
{
	struct pin *p = &pins[off];

	if (p->val == !!val)
		return;
	p->val = val;
	p->changes++;
	ring[nlog++ % LOG_LEN] = (struct entry){ ktime_get_ns(), off, !!val };
}

static int ps_get_direction(struct gpio_chip *gc, unsigned int off)
{
	return pins[off].out ? GPIO_LINE_DIRECTION_OUT : GPIO_LINE_DIRECTION_IN;
}

static int ps_input(struct gpio_chip *gc, unsigned int off)
{
	unsigned long f;

	raw_spin_lock_irqsave(&lock, f);
	pins[off].out = false;
	raw_spin_unlock_irqrestore(&lock, f);
	return 0;
}

static void ps_set(struct gpio_chip *gc, unsigned int off, int val)
{
	unsigned long f;

	raw_spin_lock_irqsave(&lock, f);
	put(off, val);
	raw_spin_unlock_irqrestore(&lock, f);
}

static int ps_output(struct gpio_chip *gc, unsigned int off, int val)
{
	unsigned long f;

	raw_spin_lock_irqsave(&lock, f);
	pins[off].out = true;
	put(off, val);
	raw_spin_unlock_irqrestore(&lock, f);
	return 0;
}

static int ps_get(struct gpio_chip *gc, unsigned int off)
{
	unsigned long f;
	int v;

	raw_spin_lock_irqsave(&lock, f);
	v = level(&pins[off]);
	raw_spin_unlock_irqrestore(&lock, f);
	return v;
}

/* Applies a change to a pin and raises its interrupt if an armed edge came of it. */
static void change(unsigned int off, u8 *field, u8 value)
{
	struct pin *p = &pins[off];
	unsigned long f;
	int before, after;
	bool fire;

	raw_spin_lock_irqsave(&lock, f);
	before = level(p);
	*field = value;
	after = level(p);
	fire = before != after && test_bit(off, unmasked) &&
	       (p->type & (after ? IRQ_TYPE_EDGE_RISING : IRQ_TYPE_EDGE_FALLING));
	raw_spin_unlock_irqrestore(&lock, f);
	if (fire)
		generic_handle_domain_irq_safe(chip.irq.domain, off);
}

void pinsim_drive(unsigned int off, int level)
{
	if (off < lines)
		change(off, &pins[off].ext, level < 0 ? FLOAT : level ? HIGH : LOW);
}
EXPORT_SYMBOL_GPL(pinsim_drive);

static int ps_config(struct gpio_chip *gc, unsigned int off, unsigned long config)
{
	switch (pinconf_to_config_param(config)) {
	case PIN_CONFIG_BIAS_PULL_UP:
		change(off, &pins[off].pull, HIGH);
		return 0;
	case PIN_CONFIG_BIAS_PULL_DOWN:
		change(off, &pins[off].pull, LOW);
		return 0;
	case PIN_CONFIG_BIAS_DISABLE:
		change(off, &pins[off].pull, FLOAT);
		return 0;
	default:
		return -ENOTSUPP;
	}
}

static void ps_mask(struct irq_data *d)
{
	clear_bit(irqd_to_hwirq(d), unmasked);
	gpiochip_disable_irq(&chip, irqd_to_hwirq(d));
}

static void ps_unmask(struct irq_data *d)
{
	gpiochip_enable_irq(&chip, irqd_to_hwirq(d));
	set_bit(irqd_to_hwirq(d), unmasked);
}

static int ps_type(struct irq_data *d, unsigned int type)
{
	if (type & IRQ_TYPE_LEVEL_MASK)
		return -EINVAL;
	pins[irqd_to_hwirq(d)].type = type;
	return 0;
}

static const struct irq_chip ps_irqchip = {
	.name = "gpio-pinsim",
	.irq_mask = ps_mask,
	.irq_unmask = ps_unmask,
	.irq_set_type = ps_type,
	.flags = IRQCHIP_IMMUTABLE,
	GPIOCHIP_IRQ_RESOURCE_HELPERS,
};

/* ---- debugfs ---- */

static ssize_t drive_write(struct file *f, const char __user *u, size_t n, loff_t *o)
{
	char s[32], c;
	unsigned int off;

	if (n >= sizeof(s))
		return -EINVAL;
	if (copy_from_user(s, u, n))
		return -EFAULT;
	s[n] = 0;
	if (sscanf(s, "%u %c", &off, &c) != 2 || off >= lines || !strchr("01z", c))
		return -EINVAL;
	change(off, &pins[off].ext, c == 'z' ? FLOAT : c - '0');
	return n;
}

static const struct file_operations drive_fops = {
	.owner = THIS_MODULE, .open = simple_open, .write = drive_write,
};

static int state_show(struct seq_file *m, void *v)
{
	int i;

	for (i = 0; i < lines; i++)
		if (pins[i].out || pins[i].ext != FLOAT)
			seq_printf(m, "%d %s %d %u\n", i, pins[i].out ? "out" : "in",
				   level(&pins[i]), pins[i].changes);
	return 0;
}
DEFINE_SHOW_ATTRIBUTE(state);

static int log_show(struct seq_file *m, void *v)
{
	u64 end = READ_ONCE(nlog), i = end > LOG_LEN ? end - LOG_LEN : 0;

	for (; i < end; i++)
		seq_printf(m, "%llu %u %u\n", ring[i % LOG_LEN].ns, ring[i % LOG_LEN].off,
			   ring[i % LOG_LEN].val);
	return 0;
}
DEFINE_SHOW_ATTRIBUTE(log);

static struct platform_device *pdev;
static struct dentry *dir;

static int __init ps_init(void)
{
	struct gpio_irq_chip *girq = &chip.irq;
	int i, err;

	if (lines < 1 || lines > MAX_LINES)
		return -EINVAL;
	for (i = 0; i < MAX_LINES; i++)
		pins[i].ext = pins[i].pull = FLOAT;
	pdev = platform_device_register_simple("gpio-pinsim", PLATFORM_DEVID_NONE, NULL, 0);
	if (IS_ERR(pdev))
		return PTR_ERR(pdev);

	chip.label = label;
	chip.parent = &pdev->dev;
	chip.owner = THIS_MODULE;
	chip.base = -1;
	chip.ngpio = lines;
	chip.get_direction = ps_get_direction;
	chip.direction_input = ps_input;
	chip.direction_output = ps_output;
	chip.get = ps_get;
	chip.set = ps_set;
	chip.set_config = ps_config;
	gpio_irq_chip_set_chip(girq, &ps_irqchip);
	girq->default_type = IRQ_TYPE_NONE;
	girq->handler = handle_simple_irq;
	err = gpiochip_add_data(&chip, NULL);
	if (err) {
		platform_device_unregister(pdev);
		return err;
	}
	dir = debugfs_create_dir("gpio-pinsim", NULL);
	debugfs_create_file("drive", 0200, dir, NULL, &drive_fops);
	debugfs_create_file("state", 0444, dir, NULL, &state_fops);
	debugfs_create_file("log", 0444, dir, NULL, &log_fops);
	return 0;
}

static void __exit ps_exit(void)
{
	debugfs_remove(dir);
	gpiochip_remove(&chip);
	platform_device_unregister(pdev);
}

module_init(ps_init);
module_exit(ps_exit);
MODULE_DESCRIPTION("Virtual GPIO chip with interrupts");
MODULE_LICENSE("GPL");
