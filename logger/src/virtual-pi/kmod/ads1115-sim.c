// SPDX-License-Identifier: GPL-2.0
/*
 * ads1115-sim: a virtual I2C adapter (/dev/i2c-N) that carries one ADS1115.
 *
 * Unlike i2c-stub it implements plain I2C messages, so read(), write() and
 * I2C_RDWR all work. Conversion timing, MUX, PGA, data rate and the OS bit
 * follow the data sheet. ALERT/RDY gives its pulse of 8 us at each conversion once
 * the thresholds make it a ready pin; as a comparator it is not modelled.
 *
 * Parameters:  addr=0x48  bus=1  bus_hz=100000 (0: transfers take no time)
 *              rdy=-1 (pin of gpio-pinsim that ALERT/RDY is wired to)
 * Files in /sys/kernel/debug/ads1115-sim/ :
 *   ain0..ain3   input voltage in microvolts (signed, rw)
 *   wave         text lines "microseconds microvolts": a waveform, linear between points
 *   wave_ain     input that the waveform drives (default 0)
 *   play         write 1: start the waveform now, 2: start and loop, 0: stop
 *   noise_uv     uniform noise of +- this many microvolts on every conversion
 *   clk_permille conversion time in permille of nominal (data sheet: 900..1100)
 *   nack         the next N transfers fail with EREMOTEIO, as on an unplugged bus
 *   hang_us      every transfer takes this much longer
 *   hang_ms      from now on the bus is held for so long; a transfer waits for it, and
 *                after a second fails with ETIMEDOUT as a Pi's does
 *   stuck        1: conversions never end (OS stays 0): one code for ever
 *   brownout     1: the supply fails for a moment; registers are as after power-on
 *   marks        when play, nack, hang_ms, stuck and brownout were last written:
 *                name and monotonic ns (ro)
 *   stats        counters and registers (ro)
 */
#include <linux/debugfs.h>
#include <linux/delay.h>
#include <linux/hrtimer.h>
#include <linux/i2c.h>
#include <linux/ktime.h>
#include <linux/math64.h>
#include <linux/module.h>
#include <linux/random.h>
#include <linux/seq_file.h>
#include <linux/slab.h>
#include <linux/uaccess.h>
#include "gpio-pinsim.h"

static int addr = 0x48, bus = 1, bus_hz = 100000, rdy = -1;
module_param(addr, int, 0444);
module_param(bus, int, 0444);
module_param(bus_hz, int, 0644);
module_param(rdy, int, 0444);

#define MAX_POINTS 65536
#define MAX_TEXT   (2 * 1024 * 1024)
#define BUS_TIMEOUT_NS NSEC_PER_SEC
struct point { s64 us, uv; };

static DEFINE_MUTEX(lock);		/* guards everything below */
static struct point *wave;
static unsigned int npoints;
static int play;			/* 0 off, 1 once, 2 loop */
static u64 play_t0;
static s64 ain[4];
static u32 wave_ain, noise_uv, hang_us, clk_permille = 1000;
static u64 nack, stuck, hang_end;
enum mark { M_PLAY, M_NACK, M_HANG, M_STUCK, M_BROWNOUT, MARKS };
static const char *const mark_names[MARKS] = { "play", "nack", "hang_ms", "stuck", "brownout" };
static u64 marks[MARKS];
static u64 n_xfer, n_nack, n_cfg, n_conv, n_read;

static u8 reg_ptr;
static const u16 power_on[4] = { 0x0000, 0x8583, 0x8000, 0x7fff };
static u16 regs[4] = { 0x0000, 0x8583, 0x8000, 0x7fff };
static u64 conv_t0, conv_n;		/* start of the running conversion(s) */
static bool busy;

static const u16 rate_sps[8] = { 8, 16, 32, 64, 128, 250, 475, 860 };
static const u32 fsr_uv[8] = { 6144000, 4096000, 2048000, 1024000,
			       512000, 256000, 256000, 256000 };

static s64 wave_uv(u64 now)
{
	s64 us = div_u64(now - play_t0, NSEC_PER_USEC), last = wave[npoints - 1].us;
	unsigned int lo = 0, hi = npoints - 1, mid;
	struct point *a, *b;

	if (play == 2 && last > 0)
		us -= last * div64_s64(us, last);
	if (us <= wave[0].us)
		return wave[0].uv;
	if (us >= last)
		return wave[npoints - 1].uv;
	while (hi - lo > 1) {
		mid = (lo + hi) / 2;
		if (wave[mid].us <= us)
			lo = mid;
		else
			hi = mid;
	}
	a = &wave[lo];
	b = &wave[hi];
	return a->uv + div64_s64((b->uv - a->uv) * (us - a->us), b->us - a->us);
}

static s64 input_uv(int i, u64 now)
{
	return play && npoints && i == wave_ain ? wave_uv(now) : ain[i];
}

static u16 sample(u64 now)
{
	static const s8 pos[8] = { 0, 0, 1, 2, 0, 1, 2, 3 };
	static const s8 neg[8] = { 1, 3, 3, 3, -1, -1, -1, -1 };
	int mux = (regs[1] >> 12) & 7;
	s64 uv = input_uv(pos[mux], now);

	if (neg[mux] >= 0)
		uv -= input_uv(neg[mux], now);
	if (noise_uv)
		uv += (s64)(get_random_u32() % (2 * noise_uv + 1)) - noise_uv;
	uv = div64_s64(uv * 32768, fsr_uv[(regs[1] >> 9) & 7]);
	n_conv++;
	return (u16)clamp_t(s64, uv, -32768, 32767);
}

static u64 period_ns(void)
{
	return div_u64(1000000ULL * clk_permille, rate_sps[(regs[1] >> 5) & 7]);
}

/* ---- ALERT/RDY ---- */

static struct hrtimer rdy_timer;
static u64 rdy_period;			/* written while the timer rests only */

static enum hrtimer_restart rdy_pulse(struct hrtimer *t)
{
	pinsim_drive(rdy, 0);
	udelay(8);
	pinsim_drive(rdy, -1);		/* open drain: the pull-up does the rest */
	hrtimer_forward_now(t, ns_to_ktime(rdy_period));
	return HRTIMER_RESTART;
}

/* To be called wherever registers or faults change: starts or stops the pulses. */
static void rdy_follow(void)
{
	bool on = rdy >= 0 && busy && !stuck && !(regs[1] & 0x0100) && (regs[1] & 3) != 3 &&
		  (regs[3] & 0x8000) && !(regs[2] & 0x8000);

	if (rdy < 0)
		return;
	hrtimer_cancel(&rdy_timer);
	if (on) {
		rdy_period = period_ns();
		hrtimer_start(&rdy_timer, ns_to_ktime(conv_t0 + (conv_n + 1) * rdy_period),
			      HRTIMER_MODE_ABS);
	}
}

/* Brings the conversion register up to date with the clock. */
static void update(u64 now)
{
	u64 period = period_ns();
	u64 n = period ? div64_u64(now - conv_t0, period) : 0;

	if (!busy || stuck || n <= conv_n)
		return;
	if (regs[1] & 0x0100) {			/* single shot: done */
		regs[0] = sample(conv_t0 + period);
		busy = false;
	} else {				/* continuous: the newest one */
		regs[0] = sample(conv_t0 + n * period);
		conv_n = n;
	}
}

static void write_config(u16 v, u64 now)
{
	bool single = v & 0x0100, was_single = regs[1] & 0x0100;

	n_cfg++;
	if (single && busy && was_single) {	/* a start is ignored while converting */
		regs[1] = v & 0x7fff;
		return;
	}
	regs[1] = v & 0x7fff;
	if (!single || (v & 0x8000)) {
		busy = true;
		conv_t0 = now;
		conv_n = 0;
	} else {
		busy = false;
	}
}

static void ads_write(const u8 *b, int len, u64 now)
{
	u16 v;

	if (len < 1)
		return;
	reg_ptr = b[0] & 3;
	if (len < 3)
		return;
	v = b[1] << 8 | b[2];
	if (reg_ptr == 1)
		write_config(v, now);
	else if (reg_ptr > 1)
		regs[reg_ptr] = v;
	if (reg_ptr > 0)
		rdy_follow();
}

static void ads_read(u8 *b, int len)
{
	u16 v = regs[reg_ptr];
	int i;

	if (reg_ptr == 1)
		v = (v & 0x7fff) | (busy ? 0 : 0x8000);
	if (reg_ptr == 0)
		n_read++;
	for (i = 0; i < len; i++)
		b[i] = i & 1 ? v & 0xff : v >> 8;
}

/* Waits where something holds the bus down; false where it holds it for too long. */
static bool bus_is_free(void)
{
	u64 began = ktime_get_ns();

	while (ktime_get_ns() < READ_ONCE(hang_end)) {
		if (ktime_get_ns() - began > BUS_TIMEOUT_NS)
			return false;
		usleep_range(1000, 2000);
	}
	return true;
}

static int sim_xfer(struct i2c_adapter *adap, struct i2c_msg *msgs, int num)
{
	int i, ret = num;
	u32 bits = 0, us;

	for (i = 0; i < num; i++)
		bits += 10 + 9 * msgs[i].len;
	us = READ_ONCE(hang_us) + (bus_hz > 0 ? bits * 1000 / (bus_hz / 1000 ?: 1) : 0);
	if (us)
		usleep_range(us, us + us / 10 + 1);
	if (!bus_is_free())
		ret = -ETIMEDOUT;

	mutex_lock(&lock);
	n_xfer++;
	if (nack && ret > 0) {
		nack--;
		ret = -EREMOTEIO;
	}
	for (i = 0; i < num && ret > 0; i++) {
		u64 now = ktime_get_ns();

		if (msgs[i].addr != addr) {
			ret = -EREMOTEIO;
			break;
		}
		update(now);
		if (msgs[i].flags & I2C_M_RD)
			ads_read(msgs[i].buf, msgs[i].len);
		else
			ads_write(msgs[i].buf, msgs[i].len, now);
	}
	if (ret < 0)
		n_nack++;
	mutex_unlock(&lock);
	return ret;
}

static u32 sim_func(struct i2c_adapter *adap)
{
	return I2C_FUNC_I2C | I2C_FUNC_SMBUS_EMUL;
}

static const struct i2c_algorithm sim_algo = {
	.master_xfer = sim_xfer, .functionality = sim_func,
};

static struct i2c_adapter adapter = {
	.owner = THIS_MODULE, .name = "ads1115-sim", .algo = &sim_algo,
};

/* ---- debugfs ---- */

static int ain_get(void *p, u64 *v) { *v = *(s64 *)p; return 0; }
static int ain_set(void *p, u64 v)
{
	mutex_lock(&lock);
	*(s64 *)p = v;
	mutex_unlock(&lock);
	return 0;
}
DEFINE_DEBUGFS_ATTRIBUTE_SIGNED(ain_fops, ain_get, ain_set, "%lld\n");

static int play_get(void *p, u64 *v) { *v = play; return 0; }
static int play_set(void *p, u64 v)
{
	if (v > 2)
		return -EINVAL;
	mutex_lock(&lock);
	play = v;
	marks[M_PLAY] = play_t0 = ktime_get_ns();
	mutex_unlock(&lock);
	return 0;
}
DEFINE_DEBUGFS_ATTRIBUTE(play_fops, play_get, play_set, "%llu\n");

static int nack_get(void *p, u64 *v) { *v = nack; return 0; }
static int nack_set(void *p, u64 v)
{
	mutex_lock(&lock);
	nack = v;
	marks[M_NACK] = ktime_get_ns();
	mutex_unlock(&lock);
	return 0;
}
DEFINE_DEBUGFS_ATTRIBUTE(nack_fops, nack_get, nack_set, "%llu\n");

static int hang_set(void *p, u64 v)
{
	mutex_lock(&lock);
	marks[M_HANG] = ktime_get_ns();
	WRITE_ONCE(hang_end, marks[M_HANG] + v * NSEC_PER_MSEC);
	mutex_unlock(&lock);
	return 0;
}
DEFINE_DEBUGFS_ATTRIBUTE(hang_fops, NULL, hang_set, "%llu\n");

static int stuck_get(void *p, u64 *v) { *v = stuck; return 0; }
static int stuck_set(void *p, u64 v)
{
	mutex_lock(&lock);
	marks[M_STUCK] = ktime_get_ns();
	update(marks[M_STUCK]);
	stuck = v;
	rdy_follow();
	mutex_unlock(&lock);
	return 0;
}
DEFINE_DEBUGFS_ATTRIBUTE(stuck_fops, stuck_get, stuck_set, "%llu\n");

static int brownout_set(void *p, u64 v)
{
	mutex_lock(&lock);
	marks[M_BROWNOUT] = ktime_get_ns();
	memcpy(regs, power_on, sizeof(regs));
	reg_ptr = 0;
	busy = false;
	rdy_follow();
	mutex_unlock(&lock);
	return 0;
}
DEFINE_DEBUGFS_ATTRIBUTE(brownout_fops, NULL, brownout_set, "%llu\n");

static int marks_show(struct seq_file *m, void *v)
{
	int i;

	for (i = 0; i < MARKS; i++)
		seq_printf(m, "%s %llu\n", mark_names[i], marks[i]);
	return 0;
}
DEFINE_SHOW_ATTRIBUTE(marks);

/* The text is collected while the file is open and parsed when it is closed. */
struct text { size_t len; char s[MAX_TEXT + 1]; };

static int wave_open(struct inode *inode, struct file *f)
{
	f->private_data = kvzalloc(sizeof(struct text), GFP_KERNEL);
	return f->private_data ? 0 : -ENOMEM;
}

static ssize_t wave_write(struct file *f, const char __user *u, size_t n, loff_t *off)
{
	struct text *t = f->private_data;

	if (t->len + n > MAX_TEXT)
		return -EFBIG;
	if (copy_from_user(t->s + t->len, u, n))
		return -EFAULT;
	t->len += n;
	return n;
}

static int wave_release(struct inode *inode, struct file *f)
{
	struct text *t = f->private_data;
	struct point *p = kvcalloc(MAX_POINTS, sizeof(*p), GFP_KERNEL), *old = NULL;
	char *s = t->s, *line;
	unsigned int n = 0, bad = 0;

	while (p && (line = strsep(&s, "\n"))) {
		long long us, uv;

		if (!*skip_spaces(line) || *line == '#')
			continue;
		if (n < MAX_POINTS && sscanf(line, "%lld %lld", &us, &uv) == 2 &&
		    (!n || us > p[n - 1].us)) {
			p[n].us = us;
			p[n++].uv = uv;
		} else {
			bad++;
		}
	}
	if (p) {
		mutex_lock(&lock);
		play = 0;
		old = wave;
		wave = p;
		npoints = n;
		mutex_unlock(&lock);
		pr_info("ads1115-sim: %u points, %u bad lines\n", n, bad);
	}
	kvfree(old);
	kvfree(t);
	return 0;
}

static const struct file_operations wave_fops = {
	.owner = THIS_MODULE, .open = wave_open, .write = wave_write, .release = wave_release,
};

static int stats_show(struct seq_file *m, void *v)
{
	mutex_lock(&lock);
	update(ktime_get_ns());
	seq_printf(m, "transfers %llu\nfailed %llu\nconfig_writes %llu\nconversions %llu\n"
		   "conversion_reads %llu\npoints %u\nconv 0x%04x\nconfig 0x%04x\nbusy %d\n",
		   n_xfer, n_nack, n_cfg, n_conv, n_read, npoints, regs[0], regs[1], busy);
	mutex_unlock(&lock);
	return 0;
}
DEFINE_SHOW_ATTRIBUTE(stats);

static struct dentry *dir;

static int __init sim_init(void)
{
	static const char *const names[4] = { "ain0", "ain1", "ain2", "ain3" };
	int i, err;

	hrtimer_init(&rdy_timer, CLOCK_MONOTONIC, HRTIMER_MODE_ABS);
	rdy_timer.function = rdy_pulse;
	adapter.nr = bus;
	err = i2c_add_numbered_adapter(&adapter);
	if (err)
		return err;
	dir = debugfs_create_dir("ads1115-sim", NULL);
	for (i = 0; i < 4; i++)
		debugfs_create_file_unsafe(names[i], 0644, dir, &ain[i], &ain_fops);
	debugfs_create_file_unsafe("play", 0644, dir, NULL, &play_fops);
	debugfs_create_file("wave", 0200, dir, NULL, &wave_fops);
	debugfs_create_file("stats", 0444, dir, NULL, &stats_fops);
	debugfs_create_u32("wave_ain", 0644, dir, &wave_ain);
	debugfs_create_u32("noise_uv", 0644, dir, &noise_uv);
	debugfs_create_u32("clk_permille", 0644, dir, &clk_permille);
	debugfs_create_u32("hang_us", 0644, dir, &hang_us);
	debugfs_create_file_unsafe("nack", 0644, dir, NULL, &nack_fops);
	debugfs_create_file_unsafe("hang_ms", 0200, dir, NULL, &hang_fops);
	debugfs_create_file_unsafe("stuck", 0644, dir, NULL, &stuck_fops);
	debugfs_create_file_unsafe("brownout", 0200, dir, NULL, &brownout_fops);
	debugfs_create_file("marks", 0444, dir, NULL, &marks_fops);
	return 0;
}

static void __exit sim_exit(void)
{
	debugfs_remove(dir);
	i2c_del_adapter(&adapter);
	hrtimer_cancel(&rdy_timer);
	kvfree(wave);
}

module_init(sim_init);
module_exit(sim_exit);
MODULE_DESCRIPTION("Virtual I2C adapter with an ADS1115");
MODULE_LICENSE("GPL");
