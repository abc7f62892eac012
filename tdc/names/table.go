package names

// The other names that the trade has (common practice, no source). A name stands here only
// where nothing else could be meant by it: a depth gauge may have a dial or a rod, and an
// overhead cam may be one of two, so that neither does. One that stands with two words is
// asked about.

// alike is the other names of a part of a word, as partsOf leaves them.
var alike = map[string][]string{
	"inlet":   {"intake", "in"},
	"exhaust": {"exh", "ex", "outlet"},
	"cam":     {"camshaft"},
	"crank":   {"crankshaft"},
	"one":     {"1", "single"},
	"two":     {"2", "twin", "double", "dual"},
	"first":   {"1st"},
	"gauge":   {"gage"},
	"degree":  {"deg", "degs"},
	"teeth":   {"tooth"},
	"mm":      {"millimetre", "millimeter"},
	"in":      {"inch", "inche"},
	"ms":      {"millisecond", "msec"},
	"us":      {"µs", "μs", "microsecond", "usec"},
	"ns":      {"nanosecond", "nsec"},
	"s":       {"second", "sec"},
}

// whole is the other names of a word as a whole.
var whole = map[string][]string{
	"one cam":      {"sohc", "single overhead cam"},
	"two cams":     {"dohc", "two overhead cams"},
	"cam in block": {"ohv", "overhead valve", "pushrod", "push rod"},

	"flywheel":         {"flexplate"},
	"pulley":           {"crank pulley", "damper", "crank damper", "harmonic damper", "harmonic balancer", "vibration damper"},
	"crank sprocket":   {"crank gear", "crank pulley"},
	"cam sprocket":     {"cam gear", "cam pulley"},
	"inlet sprocket":   {"inlet cam sprocket", "inlet gear", "inlet cam gear", "inlet pulley", "inlet cam pulley"},
	"exhaust sprocket": {"exhaust cam sprocket", "exhaust gear", "exhaust cam gear", "exhaust pulley", "exhaust cam pulley"},
	"crank wheel":      {"crank sensor wheel", "crank trigger wheel", "crank reluctor"},
	"cam wheel":        {"cam sensor wheel", "cam trigger wheel", "cam reluctor"},
	"inlet wheel":      {"inlet cam wheel", "inlet sensor wheel", "inlet trigger wheel", "inlet reluctor"},
	"exhaust wheel":    {"exhaust cam wheel", "exhaust sensor wheel", "exhaust trigger wheel", "exhaust reluctor"},
	"drive":            {"belt", "chain", "timing belt", "timing chain", "cambelt", "camchain"},

	"dial":      {"dial gauge", "dial indicator", "dial test indicator", "indicator", "dti", "clock", "clock gauge"},
	"rod":       {"depth rod"},
	"borescope": {"boroscope", "endoscope"},

	"forward":  {"f", "fwd", "forwards"},
	"backward": {"b", "bwd", "reverse", "rev"},
	"both":     {"both ways"},
	"down":     {"downward"},
	"up":       {"upward"},
	"throw":    {"crank throw"},
	"rising":   {"rise"},

	"crank degrees": {"crank angle"},
	"cam degrees":   {"cam angle"},
	"crank":         {"crank degrees"},
	"cam":           {"cam degrees"},

	"text":     {"txt", "plain text"},
	"markdown": {"md"},
}
