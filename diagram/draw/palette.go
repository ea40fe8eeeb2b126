package draw
import "image/color"
type Palette [RoleCount]color.NRGBA
