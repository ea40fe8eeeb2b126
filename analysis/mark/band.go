package mark

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/scene"
	"clampline/diagram/unit"
)

// WithBands returns the marks with how sure each voltage is: a line on the tag of its
// bus, and a thin bar against the withstand.
func WithBands(marks scene.Marks, bands map[diagram.ID]analysis.Band, c unit.Convention) scene.Marks {
	if len(bands) == 0 {
		return marks
	}
	marks.Parts = maps.Clone(marks.Parts)
	for id, band := range bands {
		part, ok := marks.Parts[id]
		if !ok {
			continue
		}
		part.Lines = append(slices.Clone(part.Lines), BandLine(band, c))
		part.Gauge = gauge(band)
		marks.Parts[id] = part
	}
	return marks
}

// gauge is a band on a scale from 0 to a little beyond the withstand, or its end; none
// where there is no withstand.
func gauge(b analysis.Band) scene.Gauge {
	if b.Withstand <= 0 {
		return scene.Gauge{}
	}
	top := 1.1 * max(b.Withstand, b.High)
	return scene.Gauge{Low: b.Low / top, High: b.High / top, Limit: b.Withstand / top}
}

// BandLine is a band in a line: "1 180–1 420 V, holds in 93 %".
func BandLine(b analysis.Band, c unit.Convention) string {
	low, high := BandVolts(b.Low, c), BandVolts(b.High, c)
	if space := strings.LastIndexAny(high, " \u00a0"); space >= 0 {
		low = strings.TrimSuffix(low, high[space:]) // of one unit
	}
	line := low + "–" + high
	if b.Withstand > 0 {
		line += fmt.Sprintf(", holds in %d %%", b.Percent())
	}
	return line
}

// BandVolts is a voltage that is not known better than to three digits.
func BandVolts(volts float64, c unit.Convention) string {
	return unit.Format(analysis.Significant(volts, 3), unit.Voltage, c)
}

// RangeText is by how much a figure moves a voltage: "lead length of SPD-2 ±180 V".
func RangeText(doc *diagram.Document, r analysis.BandRange, c unit.Convention) string {
	return unit.Words(r.Label(doc), c) + " ±" + unit.Format(analysis.Significant(r.Volts, 2), unit.Voltage, c)
}
