package words

import "evendrop/tdc/adjust"

// Source is what a source of uncertainty is called to a person, who has sensor wheels on
// the engine as well: JSON has promised "wheel" of the protractor.
func Source(name string) string {
	if name == adjust.OffCentre {
		return "protractor off centre"
	}
	return name
}
