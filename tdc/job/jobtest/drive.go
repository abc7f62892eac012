package jobtest

import (
	"fmt"
	"strconv"
)

// inventDrive draws how the marks' members hang together: a layout, joints of the
// job's own, or nothing said.
func (b *bench) inventDrive() {
	b.camSpeed = map[string]bool{}
	one := []string{"flywheel", "pulley", "crank wheel", "crank sprocket", "cam sprocket", "cam", "cam wheel"}
	two := []string{"flywheel", "pulley", "crank wheel", "crank sprocket", "inlet sprocket", "inlet cam", "inlet wheel",
		"exhaust sprocket", "exhaust cam", "exhaust wheel"}
	switch kind := oneOf(b.chance, "drive", "two cams", "one cam", "own joints", "cam in block", "unsaid"); kind {
	case "own joints":
		b.joints()
		b.has(kind)
		return
	case "unsaid":
		b.members = oneOf(b.chance, "members", one, two)
		b.has("drive unsaid")
	default:
		b.members = one
		if kind == "two cams" {
			b.members = two
		}
		b.line("[drive]")
		b.key("layout", strconv.Quote(kind))
		b.driveSizes()
		b.has(kind)
	}
	for _, m := range b.members[4:] {
		b.camSpeed[m] = true
	}
	b.members = append([]string{"crank"}, b.members...)
}

// driveSizes writes what the slips of a drive may come to.
func (b *bench) driveSizes() {
	if b.often("sprocket") {
		b.key("crank_sprocket", strconv.Itoa(18+b.IntN(8)))
	}
	if b.often("crank wheel") {
		b.key("crank_wheel", oneOf(b.chance, "wheel", `"60-2"`, `"36-1"`, `"36-2-2-2"`))
		b.key("crank_wheel_on", oneOf(b.chance, "wheel on", `"flywheel"`, `"pulley"`, `"crank"`))
	}
	if b.seldom("cam wheel") {
		b.key("cam_wheel_on", oneOf(b.chance, "cam wheel on", `"cam"`, `"sprocket"`))
	}
	if b.often("bolts") {
		b.key("flywheel_bolts", strconv.Itoa(5+b.IntN(5)))
	}
}

// joints draws a drive of the job's own: every member carried by one before it.
func (b *bench) joints() {
	b.members = []string{"crank"}
	for i := range b.number("joints", 1, 6) {
		carrier := oneOf(b.chance, "carrier", b.members...)
		member := fmt.Sprintf("%s %d", oneOf(b.chance, "member", "gear", "flywheel", "balance shaft"), i+1)
		b.line("[[joint]]")
		b.key("carried", strconv.Quote(member))
		b.key("carrier", strconv.Quote(carrier))
		b.camSpeed[member] = b.camSpeed[carrier]
		if b.seldom("driven") {
			b.key("kind", `"drive"`)
			b.camSpeed[member] = true
			if b.often("teeth") {
				b.key("teeth", strconv.Itoa(18+b.IntN(20)))
			}
		}
		b.members = append(b.members, member)
	}
}
