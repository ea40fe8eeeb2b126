package protector

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"clampline/analysis/circuit"
)

const (
	tolerance = 0.002 // share of the level by which a reading may differ from it
	sweeps    = 5     // over all modes, which influence each other by series paths
)

// The arc of a gap: 10 to 25 V whatever the current (ITU-T K.12 and common
// practice, from memory). Its resistance is small beside that of its leads, its
// capacitance that of a gas tube. Its plasma takes tens of microseconds or more
// to recover (common practice, no source), so it is not out again within a surge.
const (
	arcVolts  = 25.0  // V
	arcOhms   = 0.02  // ohm
	openOhms  = 1e8   // ohm
	gapFarads = 5e-12 // F
)

// Calibrate returns the protector whose simulated listing tests read what the
// nameplate states, within 0.2 % in each mode. Where that can't be, the mode
// has a curve that is at the level at the current of the test, and a note says
// what its test reads. An error says what is missing on the nameplate, or that
// the context has ended.
func Calibrate(ctx context.Context, p Nameplate) (*Model, error) {
	if err := p.check(); err != nil {
		return nil, err
	}
	c := newCalibration(p)
	settled := false
	for range sweeps {
		settled = true
		for _, mode := range c.order {
			before := c.setting[mode]
			if err := c.adjust(ctx, mode); err != nil {
				return nil, err
			}
			settled = settled && c.setting[mode] == before
		}
		if settled {
			break
		}
	}
	if !settled {
		if err := c.readAll(ctx); err != nil {
			return nil, err
		}
	}
	c.note()
	return c.Model, nil
}

// calibration is the work in hand.
type calibration struct {
	*Model
	order     []Mode // from the lowest level: those hold the higher ones in series
	materials [ModeCount]Material
	base      [ModeCount]*circuit.Curve // of the material, not scaled
	setting   [ModeCount]float64        // scale of the curve, or V at which the gap fires
}

func newCalibration(p Nameplate) *calibration {
	c := &calibration{Model: &Model{Plate: p}}
	for mode := range Mode(ModeCount) {
		plate := p.Modes[mode]
		if !plate.Connected {
			continue
		}
		c.order = append(c.order, mode)
		if !plate.Switching {
			c.materials[mode] = nearest(plate.rated())
			c.base[mode] = c.materials[mode].Curve("", 1)
		}
		c.set(mode, c.plain(mode))
	}
	slices.SortStableFunc(c.order, func(a, b Mode) int {
		return cmp.Compare(p.Modes[a].Level, p.Modes[b].Level)
	})
	return c
}

// plain returns the setting that puts the component itself at the level.
func (c *calibration) plain(mode Mode) float64 {
	plate := c.Plate.Modes[mode]
	if plate.Switching {
		return plate.Level
	}
	return plate.Level / c.base[mode].Voltage(c.Plate.current())
}

// set gives a mode the component of a setting.
func (c *calibration) set(mode Mode, setting float64) {
	c.setting[mode] = setting
	if c.Plate.Modes[mode].Switching {
		arc := min(arcVolts, setting/2)
		c.Gaps[mode] = &circuit.Gap{Sparkover: setting, Arc: arc, Ohms: arcOhms, Off: openOhms}
		c.Farads[mode] = gapFarads
		return
	}
	m := c.materials[mode]
	c.Curves[mode] = c.base[mode].Scaled(fmt.Sprintf("%s, %s x %.6g", mode, m.Name, setting), setting)
	// A thicker block has less capacitance, a thinner one more, so that
	// capacitance times voltage stays; but there is none of a few volts.
	c.Farads[mode] = m.Farads / max(setting, 0.25)
}

// adjust brings the reading of a mode to its level, the others as they are.
func (c *calibration) adjust(ctx context.Context, mode Mode) error {
	reading, err := c.read(ctx, mode, coarseStep)
	if err != nil {
		return err
	}
	c.Readings[mode] = reading
	if c.isMet(mode, tolerance/2) {
		return nil
	}
	before := c.setting[mode]
	find := c.findScale
	if c.Plate.Modes[mode].Switching {
		find = c.findSpark
	}
	setting, found, err := find(ctx, mode)
	if err != nil {
		return err
	}
	if !found {
		setting = c.plain(mode)
	}
	c.set(mode, setting)
	if setting == before {
		c.Readings[mode] = reading
	}
	return nil
}

// off returns by how much the reading differs from the level, as a logarithm.
func (c *calibration) off(mode Mode) float64 {
	return math.Log(c.Readings[mode] / c.Plate.Modes[mode].Level)
}

// isMet reports whether the reading of a mode is its level within a share of it.
func (c *calibration) isMet(mode Mode, share float64) bool { return math.Abs(c.off(mode)) <= share }

// readAll reads the test of every mode.
func (c *calibration) readAll(ctx context.Context) error {
	for _, mode := range c.order {
		reading, err := c.read(ctx, mode, coarseStep)
		if err != nil {
			return err
		}
		c.Readings[mode] = reading
	}
	return nil
}

// findSpark returns the voltage at which the gap of a mode must fire, and false
// if there is none.
func (c *calibration) findSpark(ctx context.Context, mode Mode) (float64, bool, error) {
	spark, found, err := c.listing(mode).sparkFor(ctx, c.Plate.Modes[mode].Level)
	if err != nil {
		return 0, false, fmt.Errorf("mode %s: its listing test: %w", mode, err)
	}
	if !found {
		return 0, false, nil
	}
	c.set(mode, spark)
	c.Readings[mode], err = c.read(ctx, mode, coarseStep)
	return spark, err == nil && c.isMet(mode, tolerance), err
}

// findScale returns the scale of the curve at which the test of a mode reads
// its level, and false if there is none.
func (c *calibration) findScale(ctx context.Context, mode Mode) (float64, bool, error) {
	const widest = 20 // times either way from where the curve itself is at the level
	middle := math.Log(c.plain(mode))
	off := func(x float64) (float64, error) {
		c.set(mode, math.Exp(x))
		reading, err := c.read(ctx, mode, coarseStep)
		c.Readings[mode] = reading
		return c.off(mode), err
	}
	start := math.Log(c.setting[mode])
	// The curve's own share of the reading is what its scale moves.
	slope := c.Curves[mode].Voltage(c.Plate.current()) / c.Readings[mode]
	x, found, err := root(off, point{start, c.off(mode)}, min(slope, 1), middle-math.Log(widest), middle+math.Log(widest))
	return math.Exp(x), found, err
}
