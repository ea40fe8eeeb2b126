package transient

import (
	"context"
	"fmt"
	"testing"
)

func BenchmarkRun(b *testing.B) {
	for _, row := range []struct{ buses, protectors int }{{30, 0}, {30, 9}, {100, 30}, {1000, 300}} {
		n := building(row.buses, row.protectors)
		b.Run(fmt.Sprintf("%d buses, %d protectors", row.buses, row.protectors), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				s, err := New(context.Background(), n, Options{Step: 10e-9, Duration: 100e-6})
				if err != nil {
					b.Fatal(err)
				}
				if _, err := s.Run(context.Background()); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
