package job_test

import "testing"

// TestRefuseEngine is about [engine].
func TestRefuseEngine(t *testing.T) {
	badLines{
		{`stroke = 0x51`, `job.toml:2:10: stroke = 0x51: expected a length such as 81.4, 81.4 mm or 3.2 in`},
		{`stroke = 1e400`, `job.toml:2:10: stroke = 1e400: expected a length such as 81.4, 81.4 mm or 3.2 in`},
		{`stroke = 0.086`, `job.toml:2:10: stroke = 0.086: no engine's stroke is 0.086 mm: if it is in metres, write 86, in mm; if not, write its unit, such as "3.39 in"`},
		{`stroke = inf`, `job.toml:2:10: stroke = inf: expected a length such as 81.4, 81.4 mm or 3.2 in`},
		{`stroke = -nan`, `job.toml:2:10: stroke = -nan: expected a length such as 81.4, 81.4 mm or 3.2 in`},
		{`stroke = true`, `job.toml:2:10: stroke = true: expected a length such as 81.4, 81.4 mm or 3.2 in`},
		{`stroke = "abc"`, `job.toml:2:10: stroke = "abc": expected a length such as 81.4, 81.4 mm or 3.2 in`},
		{`stroke = "81.4 cm"`, `job.toml:2:10: stroke = "81.4 cm": expected a length such as 81.4, 81.4 mm or 3.2 in`},
		{`stroke = [81.4]`, `job.toml:2:10: stroke = [...]: expected a length such as 81.4, 81.4 mm or 3.2 in`},
		{`stroke = "a text of more than forty characters, which is cut short"`, `job.toml:2:10: stroke = "a text of more than forty characters, wh...": expected a length such as 81.4, 81.4 mm or 3.2 in`},
		{`stroke = 0`, `job.toml:2:10: stroke = 0: expected a length above 0, such as 81.4`},
		{`stroke = 0.0`, `job.toml:2:10: stroke = 0.0: expected a length above 0, such as 81.4`},
		{`bore = -79`, `job.toml:2:8: bore = -79: expected a length above 0, such as 81.4`},
		{`rod = 1_000_000`, `job.toml:2:7: rod = 1_000_000: expected a length of less than 100 m`},
		{`rod = "4000 in"`, `job.toml:2:7: rod = "4000 in": expected a length of less than 100 m`},
		{`stroek = 81.4`, `job.toml:2:1: stroek: unknown key; did you mean "stroke"?`},
		{`STROKE = 81.4`, `job.toml:2:1: STROKE: unknown key; did you mean "stroke"?`},
		{`Rod = 133`, `job.toml:2:1: Rod: unknown key; did you mean "rod"?`},
		{`rods = 133`, `job.toml:2:1: rods: unknown key; did you mean "rod"?`},
		{`name = 5`, `job.toml:2:8: name = 5: expected a text in quotes, as in "text"`},
		{`pin_offset = "left"`, `job.toml:2:14: pin_offset = "left": expected a length such as 81.4, 81.4 mm or 3.2 in`},
		{`stroke = 81.4 / rod = 30`, `job.toml:3:7: rod = 30: rod 30 mm is too short: it must be longer than half the stroke, 40.7 mm`},
		{`stroke = 81.4 / rod = 40.7`, `job.toml:3:7: rod = 40.7: rod 40.7 mm is too short: it must be longer than half the stroke, 40.7 mm`},
		{`stroke = 81.4 / rod = 45 / pin_offset = 5`, `job.toml:4:14: pin_offset = 5: offset -5 mm is too big: with rod 45 mm and stroke 81.4 mm it must stay under 4.3 mm`},
		{`stroke = 81.4 / rod = 45 / pin_offset = 1 / bore_offset = -5`, `job.toml:5:15: bore_offset = -5: offset -6 mm is too big: with rod 45 mm and stroke 81.4 mm it must stay under 4.3 mm`},
		{`known_to = 0.5`, `job.toml:2:12: known_to = 0.5: expected half-widths such as { stroke = 0.1, rod = 0.5, offset = 0.5 }`},
		{`known_to = [0.5]`, `job.toml:2:12: known_to = [...]: expected half-widths such as { stroke = 0.1, rod = 0.5, offset = 0.5 }`},
		{`known_to = {stroke = -1}`, `job.toml:2:22: stroke = -1: expected a length of 0 or more, such as 0.05`},
		{`known_to = {rod = "1 m"}`, `job.toml:2:19: rod = "1 m": expected a length such as 81.4, 81.4 mm or 3.2 in`},
		{`known_to = {strok = 1}`, `job.toml:2:13: strok: unknown key; did you mean "stroke"?`},
	}.check(t, "[engine]\n")
}

// TestRefuseProtractor is about [protractor].
func TestRefuseProtractor(t *testing.T) {
	badLines{
		{`counts = "clockwise"`, `job.toml:2:10: counts = "clockwise": expected "with" or "against"`},
		{`counts = 1`, `job.toml:2:10: counts = 1: expected "with" or "against"`},
		{`wraps = 270`, `job.toml:2:9: wraps = 270: expected 720, 360, 180 or 90`},
		{`wraps = 360.5`, `job.toml:2:9: wraps = 360.5: expected 720, 360, 180 or 90`},
		{`wraps = "360"`, `job.toml:2:9: wraps = "360": expected 720, 360, 180 or 90`},
		{`wraps = 1e300`, `job.toml:2:9: wraps = 1e300: expected 720, 360, 180 or 90`},
		{`step = -1`, `job.toml:2:8: step = -1: expected degrees from 0 to 360, such as 0.5`},
		{`step = nan`, `job.toml:2:8: step = nan: expected degrees from 0 to 360, such as 0.5`},
		{`step = "1 BTDC"`, `job.toml:2:8: step = "1 BTDC": expected degrees from 0 to 360, such as 0.5`},
		{`step = 400`, `job.toml:2:8: step = 400: expected degrees from 0 to 360, such as 0.5`},
		{`error = "half"`, `job.toml:2:9: error = "half": expected degrees from 0 to 360, such as 0.5`},
		{`off_centre = -0.1`, `job.toml:2:14: off_centre = -0.1: expected a length of 0 or more, such as 0.05`},
		{`radius = 0`, `job.toml:2:10: radius = 0: expected a length above 0, such as 81.4`},
		{`radius = 100 / off_centre = 100`, `job.toml:1:1: [protractor]: off_centre is 100 mm, which is not smaller than the radius, 100 mm: correct one of them`},
		{`step = 0 / error = 0`, `job.toml:1:1: [protractor]: step and error are both 0: state at least a step, such as step = 0.5`},
		{`error = 1e-9 / step = 0.0`, `job.toml:1:1: [protractor]: step and error are both 0: state at least a step, such as step = 0.5`},
	}.check(t, "[protractor]\n")
}

// TestRefuseGauge is about [gauge].
func TestRefuseGauge(t *testing.T) {
	badLines{
		{`kind = "dail"`, `job.toml:2:8: kind = "dail": did you mean "dial"?`},
		{`kind = 5`, `job.toml:2:8: kind = 5: expected "dial", "rod" or "borescope"`},
		{`counts = "left"`, `job.toml:2:10: counts = "left": expected "down" or "up"`},
		{`step = "1 cm"`, `job.toml:2:8: step = "1 cm": expected a length such as 81.4, 81.4 mm or 3.2 in`},
		{`step = -0.01`, `job.toml:2:8: step = -0.01: expected a length of 0 or more, such as 0.05`},
		{`error = -0.01`, `job.toml:2:9: error = -0.01: expected a length of 0 or more, such as 0.05`},
		{`step = 0 / error = 0.0`, `job.toml:1:1: [gauge]: step and error are both 0: state at least a step, such as step = 0.01`},
		{`scale_known_to = 7`, `job.toml:2:18: scale_known_to = 7: expected a fraction such as 0.07`},
		{`scale_known_to = 1`, `job.toml:2:18: scale_known_to = 1: expected a fraction such as 0.07`},
		{`scale_known_to = -0.1`, `job.toml:2:18: scale_known_to = -0.1: expected a fraction such as 0.07`},
		{`scale_known_to = "7 %"`, `job.toml:2:18: scale_known_to = "7 %": expected a fraction such as 0.07`},
		{`lash = -1`, `job.toml:2:8: lash = -1: expected a length of 0 or more, such as 0.05`},
		{`lash_known_to = inf`, `job.toml:2:17: lash_known_to = inf: expected a length such as 81.4, 81.4 mm or 3.2 in`},
	}.check(t, "[gauge]\n")
}

// TestRefuseDrive is about [drive] and [[joint]].
func TestRefuseDrive(t *testing.T) {
	badLines{
		{`layout = "three cams"`, `job.toml:2:10: layout = "three cams": expected "one cam", "two cams", "two cams, inlet first", "two cams, exhaust first" or "cam in block"`},
		{`crank_sprocket = 0`, `job.toml:2:18: crank_sprocket = 0: expected a whole number from 1 to 1000`},
		{`crank_sprocket = 1001`, `job.toml:2:18: crank_sprocket = 1001: expected a whole number from 1 to 1000`},
		{`crank_wheel = "60"`, `job.toml:2:15: crank_wheel = "60": expected pitches-missing such as 60-2, or degrees from edge to edge such as 57x6,18`},
		{`crank_wheel = 60`, `job.toml:2:15: crank_wheel = 60: expected pitches and missing teeth, as in "60-2"`},
		{`crank_wheel = "2-60"`, `job.toml:2:15: crank_wheel = "2-60": expected at least one tooth missing, two left and 1000 pitches at most, as in 60-2`},
		{`crank_wheel = "1001-2"`, `job.toml:2:15: crank_wheel = "1001-2": expected at least one tooth missing, two left and 1000 pitches at most, as in 60-2`},
		{`crank_wheel = "57x6,19"`, `job.toml:2:15: crank_wheel = "57x6,19": the intervals sum to 361 deg: expected 360`},
		{`crank_wheel_on = "cam"`, `job.toml:2:18: crank_wheel_on = "cam": expected "flywheel", "pulley" or "crank"`},
		{`cam_wheel_on = "crank"`, `job.toml:2:16: cam_wheel_on = "crank": expected "cam" or "sprocket"`},
		{`flywheel_bolts = 8.5`, `job.toml:2:18: flywheel_bolts = 8.5: expected a whole number from 1 to 1000`},
		{`bolts = 8`, `job.toml:2:1: bolts: unknown key; expected layout, crank_sprocket, crank_wheel, crank_wheel_on, cam_wheel_on or flywheel_bolts`},
		{`layout = "one cam" / [[joint]] / carried = "a" / carrier = "b"`, `job.toml:3:1: [[joint]]: the drive has a layout already, "one cam": leave out one of the two`},
		{`[joint]`, `job.toml:2:1: [joint]: there may be more than one: write [[joint]]`},
		{`[[joint]] / carried = "a"`, `job.toml:2:1: [[joint]]: carrier is missing: type for example carrier = "crank sprocket"`},
		{`[[joint]] / carrier = "a"`, `job.toml:2:1: [[joint]]: carried is missing: type for example carried = "inlet sprocket"`},
		{`[[joint]] / carrier = ""`, `job.toml:3:11: carrier = "": expected a name`},
		{`[[joint]] / kind = "rope"`, `job.toml:3:8: kind = "rope": expected "joint" or "drive"`},
		{`[[joint]] / teeth = -3`, `job.toml:3:9: teeth = -3: expected a whole number from 1 to 1000`},
	}.check(t, "[drive]\n")
}
