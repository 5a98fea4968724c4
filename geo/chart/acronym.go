package chart

import (
	"maps"
	"strconv"
	"strings"
)

// The S-57 acronyms in the order of their codes: geo classes 1 to 163, meta
// classes 300 to 312, collections 400 to 402. Source: IHO S-57 App. A as listed
// in s57objectclasses.csv of GDAL 3.6.2 (MIT/X).
const (
	geoClasses = `ADMARE AIRARE ACHBRT ACHARE BCNCAR BCNISD BCNLAT BCNSAW BCNSPP BERTHS BRIDGE BUISGL
		BUAARE BOYCAR BOYINB BOYISD BOYLAT BOYSAW BOYSPP CBLARE CBLOHD CBLSUB CANALS CANBNK CTSARE CAUSWY
		CTNARE CHKPNT CGUSTA COALNE CONZNE COSARE CTRPNT CONVYR CRANES CURENT CUSZNE DAMCON DAYMAR DWRTCL
		DWRTPT DEPARE DEPCNT DISMAR DOCARE DRGARE DRYDOC DMPGRD DYKCON EXEZNE FAIRWY FNCLNE FERYRT FSHZNE
		FSHFAC FSHGRD FLODOC FOGSIG FORSTC FRPARE GATCON GRIDRN HRBARE HRBFAC HULKES ICEARE ICNARE ISTZNE
		LAKARE LAKSHR LNDARE LNDELV LNDRGN LNDMRK LIGHTS LITFLT LITVES LOCMAG LOKBSN LOGPON MAGVAR MARCUL
		MIPARE MORFAC NAVLNE OBSTRN OFSPLF OSPARE OILBAR PILPNT PILBOP PIPARE PIPOHD PIPSOL PONTON PRCARE
		PRDARE PYLONS RADLNE RADRNG RADRFL RADSTA RTPBCN RDOCAL RDOSTA RAILWY RAPIDS RCRTCL RECTRC RCTLPT
		RSCSTA RESARE RETRFL RIVERS RIVBNK ROADWY RUNWAY SNDWAV SEAARE SPLARE SBDARE SLCONS SISTAT SISTAW
		SILTNK SLOTOP SLOGRD SMCFAC SOUNDG SPRING SQUARE STSLNE SUBTLN SWPARE TESARE TS_PRH TS_PNH TS_PAD
		TS_TIS T_HMON T_NHMN T_TIMS TIDEWY TOPMAR TSELNE TSSBND TSSCRS TSSLPT TSSRON TSEZNE TUNNEL TWRTPT
		UWTROC UNSARE VEGATN WATTUR WATFAL WEDKLP WRECKS TS_FEB ARCSLN ASLXIS NEWOBJ`
	metaClasses = `M_ACCY M_CSCL M_COVR M_HDAT M_HOPA M_NPUB M_NSYS M_PROD M_QUAL M_SDAT M_SREL M_UNIT M_VDAT`
	collections = `C_AGGR C_ASSO C_STAC`
)

var acronyms = listAcronyms()

func listAcronyms() map[Class]string {
	m := map[Class]string{DSID: "DSID"}
	for first, names := range map[Class]string{1: geoClasses, 300: metaClasses, 400: collections} {
		for i, name := range strings.Fields(names) {
			m[first+Class(i)] = name
		}
	}
	return m
}

// Acronyms are the names of all S-57 classes and of DSID. The map is the
// caller's.
func Acronyms() map[Class]string { return maps.Clone(acronyms) }

// Acronym is the S-57 acronym of the class, "" for one that S-57 does not list.
func (c Class) Acronym() string { return acronyms[c] }

// String is the S-57 acronym of the class, or its number where S-57 has none.
func (c Class) String() string {
	switch name, ok := acronyms[c]; {
	case ok:
		return name
	case c == refusedArea, c == refusedMark:
		return "left out"
	case c == NoClass:
		return ""
	}
	return strconv.Itoa(int(c))
}
