package joint

import "evendrop/tdc/mark"

// Link is a member of the drive, what carries it, and what the joint between them
// is called in an explanation.
type Link struct {
	Carried, Carrier, Joint string
	Drive                   bool // a chain, belt or gear to a shaft that turns at half the speed
}

// Links is the drive as it was understood, for a picture: every member but the
// crank, after the one that carries it where the drive names them so. A drive that
// no explanation could be sought for is an error.
func Links(drive mark.Drive, marks []mark.Mark) ([]Link, error) {
	t, err := mark.TreeFor(drive, marks)
	if err != nil {
		return nil, err
	}
	var links []Link
	for _, j := range t.Joints {
		links = append(links, Link{j.Carried, j.Carrier, j.Name(), j.Drive})
	}
	return links, nil
}
