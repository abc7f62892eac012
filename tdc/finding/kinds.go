package finding

// The kinds, by name, and what would cure each.

func (GaugeCountsOtherWay) Kind() string { return "gauge counts the other way" }
func (GaugeCountsOtherWay) Cure() Cure   { return MendJob }

func (FewReadings) Kind() string { return "few readings" }
func (FewReadings) Cure() Cure   { return ReadMore }

func (NotUsed) Kind() string { return "readings not used" }
func (NotUsed) Cure() Cure   { return ReadMore }

func (AllShallow) Kind() string { return "all shallow" }
func (AllShallow) Cure() Cure   { return ReadMore }

func (FlankMissing) Kind() string { return "flank missing" }
func (FlankMissing) Cure() Cure   { return ReadMore }

func (FlankThin) Kind() string { return "flank thin" }
func (FlankThin) Cure() Cure   { return ReadMore }

func (FlanksLopsided) Kind() string { return "flanks lopsided" }
func (FlanksLopsided) Cure() Cure   { return ReadMore }

func (SuspectReading) Kind() string { return "suspect reading" }
func (SuspectReading) Cure() Cure   { return ReadAgain }

func (MoreSuspects) Kind() string { return "more suspects" }
func (MoreSuspects) Cure() Cure   { return LookAtEngine }

func (WithEveryReading) Kind() string { return "with every reading" }
func (WithEveryReading) Cure() Cure   { return None }

func (AgainstTurn) Kind() string { return "against its turn" }
func (AgainstTurn) Cure() Cure   { return MendJob }

func (Scattered) Kind() string { return "scatter" }
func (Scattered) Cure() Cure   { return LookAtEngine }

func (FewLieApart) Kind() string { return "few lie apart" }
func (FewLieApart) Cure() Cure   { return ReadMore }

func (ScaleOff) Kind() string { return "scale off" }
func (ScaleOff) Cure() Cure   { return MendJob }

func (StrokeUnknown) Kind() string { return "stroke unknown" }
func (StrokeUnknown) Cure() Cure   { return MendJob }

func (RodAssumed) Kind() string { return "rod assumed" }
func (RodAssumed) Cure() Cure   { return MendJob }

func (PairMisfit) Kind() string      { return "pair does not fit" }
func (PairMisfit) Cure() Cure        { return ReadAgain }
func (OffsetUnstated) Kind() string  { return "offset not stated" }
func (OffsetUnstated) Cure() Cure    { return MendJob }
func (PairContradicts) Kind() string { return "pair contradicts the readings" }
func (PairContradicts) Cure() Cure   { return ReadAgain }

func (PairScatter) Kind() string { return "pair scatters" }
func (PairScatter) Cure() Cure   { return ReadAgain }

func (DwellOneWay) Kind() string { return "dwell one way" }
func (DwellOneWay) Cure() Cure   { return TurnBack }

func (MethodApart) Kind() string { return "method apart" }
func (MethodApart) Cure() Cure   { return ReadAgain }

func (MaybeBottom) Kind() string { return "maybe BDC" }
func (MaybeBottom) Cure() Cure   { return LookAtEngine }

func (NotSettled) Kind() string { return "not settled" }
func (NotSettled) Cure() Cure   { return LookAtEngine }

func (BeyondReason) Kind() string { return "scatter beyond reason" }
func (BeyondReason) Cure() Cure   { return LookAtEngine }

func (TooVague) Kind() string { return "too vague" }
func (TooVague) Cure() Cure   { return ReadMore }

func (CountsContradicted) Kind() string { return "counts contradicted" }
func (CountsContradicted) Cure() Cure   { return MendJob }

func (SidesContradicted) Kind() string { return "sides contradicted" }
func (SidesContradicted) Cure() Cure   { return MendJob }

func (FlankUnsigned) Kind() string { return "flank without its sign" }
func (FlankUnsigned) Cure() Cure   { return MendJob }

func (RowUnsigned) Kind() string { return "reading without its sign" }
func (RowUnsigned) Cure() Cure   { return MendJob }

func (WrongUnit) Kind() string { return "wrong unit" }
func (WrongUnit) Cure() Cure   { return MendJob }
