<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="it" sourcelanguage="en">
<context>
    <name>Axis</name>
    <message>
        <source>from the drawing&apos;s grain line</source>
        <translation>dalla linea di drittofilo del disegno</translation>
    </message>
    <message>
        <source>from the piece&apos;s symmetry</source>
        <translation>dalla simmetria del pezzo</translation>
    </message>
    <message>
        <source>from the piece&apos;s longest direction</source>
        <translation>dalla direzione più lunga del pezzo</translation>
    </message>
    <message>
        <source>from the assembled upper</source>
        <translation>dalla tomaia assemblata</translation>
    </message>
    <message>
        <source>set by hand</source>
        <translation>impostato a mano</translation>
    </message>
</context>
<context>
    <name>Cloth</name>
    <message>
        <source>Backing of each piece</source>
        <translation>Rinforzo di ogni pezzo</translation>
    </message>
    <message>
        <source>none</source>
        <translation>nessuno</translation>
    </message>
    <message>
        <source>Cloth of {0}, layer {1}</source>
        <translation>Tessuto di {0}, strato {1}</translation>
    </message>
    <message>
        <source>Roll</source>
        <translation>Rotolo</translation>
    </message>
    <message>
        <source>Name</source>
        <translation>Nome</translation>
    </message>
    <message>
        <source>Width</source>
        <translation>Altezza</translation>
    </message>
    <message>
        <source>From edge to edge, selvedges included</source>
        <translation>Da bordo a bordo, cimose comprese</translation>
    </message>
    <message>
        <source>Usable width</source>
        <translation>Altezza utile</translation>
    </message>
    <message>
        <source>Roll length</source>
        <translation>Lunghezza del rotolo</translation>
    </message>
    <message>
        <source>Tight direction</source>
        <translation>Senso rigido</translation>
    </message>
    <message>
        <source>Direction in which the cloth gives least, from the roll&apos;s length: 0 along, 90 across</source>
        <translation>Direzione in cui il tessuto cede meno, rispetto alla lunghezza del rotolo: 0 nel senso della lunghezza, 90 di traverso</translation>
    </message>
    <message>
        <source>tested</source>
        <translation>provato</translation>
    </message>
    <message>
        <source>assumed</source>
        <translation>presunto</translation>
    </message>
    <message>
        <source>How the tight direction is known</source>
        <translation>Come è noto il senso rigido</translation>
    </message>
    <message>
        <source>For cloth with a nap or a one-way stretch: no piece is turned by 180°</source>
        <translation>Per tessuti con pelo o elasticità in un solo verso: nessun pezzo è girato di 180°</translation>
    </message>
    <message>
        <source>Price</source>
        <translation>Prezzo</translation>
    </message>
    <message>
        <source>back</source>
        <translation>rovescio</translation>
    </message>
    <message>
        <source>face</source>
        <translation>diritto</translation>
    </message>
    <message>
        <source>Price per metre</source>
        <translation>Prezzo al metro</translation>
    </message>
    <message>
        <source>Currency</source>
        <translation>Valuta</translation>
    </message>
    <message>
        <source>Cloth</source>
        <translation>Tessuto</translation>
    </message>
    <message>
        <source>Fibre</source>
        <translation>Fibra</translation>
    </message>
    <message>
        <source>Weave</source>
        <translation>Armatura</translation>
    </message>
    <message>
        <source>Mass</source>
        <translation>Peso</translation>
    </message>
    <message>
        <source>Thickness</source>
        <translation>Spessore</translation>
    </message>
    <message>
        <source>Glue</source>
        <translation>Adesivo</translation>
    </message>
    <message>
        <source>Width between the selvedges; pieces are laid inside it</source>
        <translation>Altezza fra le cimose; i pezzi stanno dentro</translation>
    </message>
    <message>
        <source>stated by the supplier</source>
        <translation>dichiarato dal fornitore</translation>
    </message>
    <message>
        <source>example</source>
        <translation>esempio</translation>
    </message>
    <message>
        <source>How known</source>
        <translation>Come è noto</translation>
    </message>
    <message>
        <source>one-way only</source>
        <translation>solo in un verso</translation>
    </message>
    <message>
        <source>Coated side</source>
        <translation>Lato spalmato</translation>
    </message>
    <message>
        <source>Lot</source>
        <translation>Partita</translation>
    </message>
    <message>
        <source>Press</source>
        <translation>Pressatura</translation>
    </message>
    <message>
        <source>Temperature</source>
        <translation>Temperatura</translation>
    </message>
    <message>
        <source>Time</source>
        <translation>Tempo</translation>
    </message>
    <message>
        <source>Pressure</source>
        <translation>Pressione</translation>
    </message>
    <message>
        <source>Source</source>
        <translation>Fonte</translation>
    </message>
    <message>
        <source>The supplier&apos;s sheet and a trial on your own leather decide.</source>
        <translation>Decidono la scheda del fornitore e una prova sulla propria pelle.</translation>
    </message>
    <message>
        <source>Price per yard</source>
        <translation>Prezzo alla iarda</translation>
    </message>
    <message>
        <source>“{0}” is not a price</source>
        <translation>«{0}» non è un prezzo</translation>
    </message>
    <message>
        <source>Cloths</source>
        <translation>Tessuti</translation>
    </message>
    <message>
        <source>The roll</source>
        <translation>Il rotolo</translation>
    </message>
    <message>
        <source>A trial is being entered.</source>
        <translation>Si registra una prova.</translation>
    </message>
    <message>
        <source>Hold sheet</source>
        <translation>Foglio di tenuta</translation>
    </message>
    <message>
        <source>the hold is not judged yet</source>
        <translation>la tenuta non è ancora calcolata</translation>
    </message>
    <message>
        <source>open the page Hold (Alt+3) and wait for its figures</source>
        <translation>aprire la pagina Tenuta (Alt+3) e attenderne le cifre</translation>
    </message>
    <message>
        <source>Field sheet</source>
        <translation>Foglio del campo</translation>
    </message>
    <message>
        <source>the pull is not worked out yet</source>
        <translation>il tiro non è ancora calcolato</translation>
    </message>
    <message>
        <source>open the page Pull (Alt+6) and wait for its figures</source>
        <translation>aprire la pagina Tiro (Alt+6) e attenderne le cifre</translation>
    </message>
    <message>
        <source>Trial report</source>
        <translation>Rapporto delle prove</translation>
    </message>
    <message>
        <source>no trial holds both predictions</source>
        <translation>nessuna prova ha entrambe le previsioni</translation>
    </message>
    <message>
        <source>enter lasting trials on a hold line</source>
        <translation>inserire prove di montaggio su una linea di tenuta</translation>
    </message>
    <message>
        <source>there is no result to print</source>
        <translation>non c&apos;è un risultato da stampare</translation>
    </message>
    <message>
        <source>test more strips</source>
        <translation>provare altre strisce</translation>
    </message>
    <message>
        <source>Read strips from a table</source>
        <translation>Leggi strisce da una tabella</translation>
    </message>
    <message>
        <source>Tables (*.csv)</source>
        <translation>Tabelle (*.csv)</translation>
    </message>
    <message>
        <source>{0} strips added</source>
        <translation>{0} strisce aggiunte</translation>
    </message>
    <message>
        <source>Read cards from a table</source>
        <translation>Leggi schede da una tabella</translation>
    </message>
    <message>
        <source>Save the cards as a table</source>
        <translation>Salva le schede in una tabella</translation>
    </message>
    <message>
        <source>Stretch test</source>
        <translation>Prova di allungamento</translation>
    </message>
</context>
<context>
    <name>ClothAction</name>
    <message>
        <source>Add a cloth</source>
        <translation>Aggiungi un tessuto</translation>
    </message>
    <message>
        <source>Remove the cloth</source>
        <translation>Togli il tessuto</translation>
    </message>
    <message>
        <source>Only while no piece is backed with it</source>
        <translation>Solo se nessun pezzo ne è rinforzato</translation>
    </message>
    <message>
        <source>Tight direction: along or across</source>
        <translation>Senso rigido: lungo o traverso</translation>
    </message>
    <message>
        <source>The direction in which the cloth gives least; the pull axes will lie along it</source>
        <translation>La direzione in cui il tessuto cede meno; gli assi di tiro vi si disporranno</translation>
    </message>
    <message>
        <source>Remove the selected flaw</source>
        <translation>Togli il difetto selezionato</translation>
    </message>
    <message>
        <source>Click a flaw to select it; drag on the roll to mark a new one</source>
        <translation>Clic su un difetto per selezionarlo; trascinare sul rotolo per segnarne uno nuovo</translation>
    </message>
    <message>
        <source>Next cloth</source>
        <translation>Tessuto seguente</translation>
    </message>
    <message>
        <source>Previous cloth</source>
        <translation>Tessuto precedente</translation>
    </message>
    <message>
        <source>Show the roll</source>
        <translation>Mostra il rotolo</translation>
    </message>
    <message>
        <source>Zoom in</source>
        <translation>Ingrandisci</translation>
    </message>
    <message>
        <source>Zoom out</source>
        <translation>Rimpicciolisci</translation>
    </message>
    <message>
        <source>Roll</source>
        <translation>Rotolo</translation>
    </message>
    <message>
        <source>Stretch tests</source>
        <translation>Prove di allungamento</translation>
    </message>
    <message>
        <source>Hold</source>
        <translation>Tenuta</translation>
    </message>
    <message>
        <source>Trials</source>
        <translation>Prove</translation>
    </message>
    <message>
        <source>Register</source>
        <translation>Registro</translation>
    </message>
    <message>
        <source>Pull</source>
        <translation>Tiro</translation>
    </message>
    <message>
        <source>Where the throat goes over the whole piece: alone, backed, turned</source>
        <translation>Dove va lo scollo su tutto il pezzo: da solo, rinforzato, girato</translation>
    </message>
    <message>
        <source>Add a strip</source>
        <translation>Aggiungi striscia</translation>
    </message>
    <message>
        <source>Remove the strip</source>
        <translation>Togli striscia</translation>
    </message>
    <message>
        <source>Export report…</source>
        <translation>Esporta rapporto…</translation>
    </message>
    <message>
        <source>Export the hold sheet</source>
        <translation>Esporta la scheda di tenuta</translation>
    </message>
    <message>
        <source>All cloths of the register as CSV</source>
        <translation>Tutti i tessuti del registro in CSV</translation>
    </message>
    <message>
        <source>All of them or none; strips on file are kept</source>
        <translation>Tutte o nessuna; le strisce già nel registro restano</translation>
    </message>
    <message>
        <source>A copy of the one shown, to be edited</source>
        <translation>Una copia di quello mostrato, da modificare</translation>
    </message>
    <message>
        <source>Deselect</source>
        <translation>Deseleziona</translation>
    </message>
    <message>
        <source>A copy of the selected strip, to be overwritten</source>
        <translation>Una copia della striscia selezionata, da sovrascrivere</translation>
    </message>
    <message>
        <source>CSV with strip, angle_deg, width_mm, gauge_mm, load_n, extension_mm, narrowing_mm, note</source>
        <translation>CSV con strip, angle_deg, width_mm, gauge_mm, load_n, extension_mm, narrowing_mm, note</translation>
    </message>
    <message>
        <source>Copy tested direction to the card</source>
        <translation>Copia il senso provato sulla scheda</translation>
    </message>
    <message>
        <source>The card&apos;s tight direction becomes the one the strips show, marked as tested</source>
        <translation>Il senso rigido della scheda diventa quello che mostrano le strisce, segnato come provato</translation>
    </message>
    <message>
        <source>Every piece with its hold line, how much it gives and what a tilt does, as PDF</source>
        <translation>Ogni pezzo con la linea di tenuta, quanto cede e che effetto ha un&apos;inclinazione, in PDF</translation>
    </message>
    <message>
        <source>Cards from CSV…</source>
        <translation>Schede da CSV…</translation>
    </message>
    <message>
        <source>Cards to CSV…</source>
        <translation>Schede in CSV…</translation>
    </message>
    <message>
        <source>Strips from CSV…</source>
        <translation>Strisce da CSV…</translation>
    </message>
    <message>
        <source>The report as PDF and the strips as CSV</source>
        <translation>Il rapporto in PDF e le strisce in CSV</translation>
    </message>
</context>
<context>
    <name>CommandRun</name>
    <message>
        <source>The command ended without a message.</source>
        <translation>Il comando è terminato senza messaggi.</translation>
    </message>
    <message>
        <source>The command could not be started.</source>
        <translation>Non è stato possibile avviare il comando.</translation>
    </message>
</context>
<context>
    <name>Core</name>
    <message>
        <source>there are no strips</source>
        <translation>non ci sono strisce</translation>
    </message>
    <message>
        <source>cut and pull strips every 30 degrees, or at least at 0, 45 and 90</source>
        <translation>tagliare e tirare strisce ogni 30 gradi, o almeno a 0, 45 e 90</translation>
    </message>
    <message>
        <source>a pull of {0} N/mm</source>
        <translation>un tiro di {0} N/mm</translation>
    </message>
    <message>
        <source>it must be greater than zero</source>
        <translation>deve essere maggiore di zero</translation>
    </message>
    <message>
        <source>the strips on the bias give less than any sheet with these strips along and across could</source>
        <translation>le strisce in sbieco cedono meno di quanto possa un foglio con queste strisce in lungo e in largo</translation>
    </message>
    <message>
        <source>cut strips at 0, 45 and 90 degrees at least, better every 30 degrees</source>
        <translation>tagliare strisce almeno a 0, 45 e 90 gradi, meglio ogni 30</translation>
    </message>
    <message>
        <source>cut strips at 45 degrees as well</source>
        <translation>tagliare strisce anche a 45 gradi</translation>
    </message>
    <message>
        <source>largest strain, %</source>
        <translation>allungamento massimo, %</translation>
    </message>
    <message>
        <source>the sheet gives nearly the same in all directions</source>
        <translation>il foglio cede quasi lo stesso in tutte le direzioni</translation>
    </message>
    <message>
        <source>its direction on the roll hardly matters for the hold</source>
        <translation>la sua direzione sul rotolo conta poco per la tenuta</translation>
    </message>
    <message>
        <source>test more repeats, and compare along and across by hand</source>
        <translation>tirare altre ripetizioni e confrontare a mano lungo e largo</translation>
    </message>
    <message>
        <source>without repeats nothing can be said about how sure this is</source>
        <translation>senza ripetizioni non si può dire quanto sia sicuro</translation>
    </message>
    <message>
        <source>pull three strips at every angle</source>
        <translation>tirare tre strisce a ogni angolo</translation>
    </message>
    <message>
        <source>the angles do not fit one orthotropic sheet</source>
        <translation>gli angoli non corrispondono a un solo foglio ortotropo</translation>
    </message>
    <message>
        <source>check the angles</source>
        <translation>controllare gli angoli</translation>
    </message>
    <message>
        <source>a knitted or scrim-stitched cloth may need its own trial</source>
        <translation>un tessuto a maglia o rinforzato può richiedere una prova a sé</translation>
    </message>
    <message>
        <source>at half the pull it gives {0} of what it gives at the full pull</source>
        <translation>a metà tiro cede {0} di quanto cede a tiro pieno</translation>
    </message>
    <message>
        <source>at a lower pull expect {0} than these constants say</source>
        <translation>a un tiro più basso aspettarsi {0} di quanto dicono queste costanti</translation>
    </message>
    <message>
        <source>more</source>
        <translation>di più</translation>
    </message>
    <message>
        <source>less</source>
        <translation>di meno</translation>
    </message>
    <message>
        <source>the secant at the working pull was used</source>
        <translation>usata la secante al tiro di lavoro</translation>
    </message>
    <message>
        <source>the working pull of {0} N/mm is more than the {1} N/mm tested</source>
        <translation>il tiro di lavoro di {0} N/mm supera i {1} N/mm provati</translation>
    </message>
    <message>
        <source>load the strips as far as lasting will</source>
        <translation>tirare le strisce fin dove tirerà la forma</translation>
    </message>
    <message>
        <source>the secant of the last reading was used</source>
        <translation>usata la secante dell&apos;ultima lettura</translation>
    </message>
    <message>
        <source>repeats at {0} deg contradict each other: one gives {1} times the other</source>
        <translation>ripetizioni a {0}° si contraddicono: una cede {1} volte l&apos;altra</translation>
    </message>
    <message>
        <source>look for a slipped clamp, a strip cut at another angle or a mistyped reading</source>
        <translation>cercare un morsetto scivolato, una striscia tagliata a un altro angolo o una lettura scritta male</translation>
    </message>
    <message>
        <source>strips at these angles can only tell along from across</source>
        <translation>con questi angoli si distingue solo tra lungo e traverso</translation>
    </message>
    <message>
        <source>strips every 30 degrees would show a slanted direction</source>
        <translation>strisce ogni 30 gradi mostrerebbero un senso inclinato</translation>
    </message>
    <message>
        <source>repeats at {0} deg differ by a factor {1}</source>
        <translation>ripetizioni a {0}° differiscono di un fattore {1}</translation>
    </message>
    <message>
        <source>all were used</source>
        <translation>usate tutte</translation>
    </message>
    <message>
        <source>pull more strips, or leave out the one that slipped</source>
        <translation>tirare altre strisce, o togliere quella scivolata</translation>
    </message>
    <message>
        <source>strip at {0} deg</source>
        <translation>striscia a {0}°</translation>
    </message>
    <message>
        <source>a reading is not a number</source>
        <translation>una lettura non è un numero</translation>
    </message>
    <message>
        <source>enter it again</source>
        <translation>inserirla di nuovo</translation>
    </message>
    <message>
        <source>width and gauge length must be greater than zero</source>
        <translation>larghezza e base di misura devono essere maggiori di zero</translation>
    </message>
    <message>
        <source>measure the strip between the marks</source>
        <translation>misurare la striscia fra i segni</translation>
    </message>
    <message>
        <source>{0} loads but {1} extensions</source>
        <translation>{0} carichi ma {1} allungamenti</translation>
    </message>
    <message>
        <source>enter one extension for every load</source>
        <translation>inserire un allungamento per ogni carico</translation>
    </message>
    <message>
        <source>narrowing was not read at every load</source>
        <translation>il restringimento non è stato letto a ogni carico</translation>
    </message>
    <message>
        <source>enter one for every load, or none</source>
        <translation>inserirne uno per ogni carico, o nessuno</translation>
    </message>
    <message>
        <source>enter repeats as strips of their own</source>
        <translation>inserire le ripetizioni come strisce a sé</translation>
    </message>
    <message>
        <source>it gets shorter as the load grows</source>
        <translation>si accorcia mentre il carico cresce</translation>
    </message>
    <message>
        <source>check the order of the readings, or the clamps for slip</source>
        <translation>controllare l&apos;ordine delle letture, o se i morsetti scivolano</translation>
    </message>
    <message>
        <source>a load of {0} N</source>
        <translation>un carico di {0} N</translation>
    </message>
    <message>
        <source>loads are greater than zero</source>
        <translation>i carichi sono maggiori di zero</translation>
    </message>
    <message>
        <source>leave the unloaded reading out</source>
        <translation>lasciare fuori la lettura scarica</translation>
    </message>
    <message>
        <source>{0} mm under {1} N</source>
        <translation>{0} mm sotto {1} N</translation>
    </message>
    <message>
        <source>a pulled strip gets longer: measure from the unloaded length</source>
        <translation>una striscia tirata si allunga: misurare dalla lunghezza scarica</translation>
    </message>
    <message>
        <source>{0} mm on a gauge length of {1} mm</source>
        <translation>{0} mm su una base di {1} mm</translation>
    </message>
    <message>
        <source>there is no sheet to pull</source>
        <translation>non c&apos;è un foglio da tirare</translation>
    </message>
    <message>
        <source>give the upper material&apos;s constants</source>
        <translation>dare le costanti della tomaia</translation>
    </message>
    <message>
        <source>nu12 = {0} is impossible with E1/E2 = {1}</source>
        <translation>nu12 = {0} è impossibile con E1/E2 = {1}</translation>
    </message>
    <message>
        <source>nu12 squared must be below E1/E2</source>
        <translation>nu12 al quadrato deve stare sotto E1/E2</translation>
    </message>
    <message>
        <source>measure it again or take 0.2</source>
        <translation>misurarlo di nuovo o prendere 0,2</translation>
    </message>
    <message>
        <source>{0} is {1} N/mm</source>
        <translation>{0} è {1} N/mm</translation>
    </message>
    <message>
        <source>write 0&lt;90&lt;45: least give first</source>
        <translation>scrivere 0&lt;90&lt;45: prima chi cede meno</translation>
    </message>
    <message>
        <source>&apos;{0}&apos; names a direction twice</source>
        <translation>&apos;{0}&apos; nomina due volte una direzione</translation>
    </message>
    <message>
        <source>each direction once</source>
        <translation>ogni direzione una volta</translation>
    </message>
    <message>
        <source>180 is 0</source>
        <translation>180 è 0</translation>
    </message>
    <message>
        <source>cut strips and measure them</source>
        <translation>tagliare strisce e misurarle</translation>
    </message>
    <message>
        <source>a pull by hand ranks directions, it measures nothing</source>
        <translation>un tiro a mano ordina le direzioni, non misura nulla</translation>
    </message>
    <message>
        <source>the direction counts as assumed</source>
        <translation>la direzione vale come presunta</translation>
    </message>
    <message>
        <source>cut strips every 30 degrees before a run</source>
        <translation>tagliare strisce ogni 30 gradi prima di una serie</translation>
    </message>
    <message>
        <source>one sheet fits all</source>
        <translation>un foglio per tutte</translation>
    </message>
    <message>
        <source>curve at half load</source>
        <translation>curva a metà carico</translation>
    </message>
    <message>
        <source>a setback is not a number</source>
        <translation>un arretramento non è un numero</translation>
    </message>
    <message>
        <source>enter it in mm</source>
        <translation>scriverlo in mm</translation>
    </message>
    <message>
        <source>the outline crosses itself ({0})</source>
        <translation>il contorno incrocia sé stesso ({0})</translation>
    </message>
    <message>
        <source>redraw it there</source>
        <translation>ridisegnarlo lì</translation>
    </message>
    <message>
        <source>{0} edges found</source>
        <translation>{0} bordi trovati</translation>
    </message>
    <message>
        <source>their kinds are suggestions</source>
        <translation>i loro tipi sono proposte</translation>
    </message>
    <message>
        <source>there is no edge {0} on ring {1} of this outline</source>
        <translation>non c&apos;è un bordo {0} sull&apos;anello {1} di questo contorno</translation>
    </message>
    <message>
        <source>edges are marked on {0} rings, the outline has {1}</source>
        <translation>i bordi sono segnati su {0} anelli, il contorno ne ha {1}</translation>
    </message>
    <message>
        <source>there is a break point already</source>
        <translation>c&apos;è già un punto di divisione</translation>
    </message>
    <message>
        <source>choose another vertex</source>
        <translation>scegliere un altro vertice</translation>
    </message>
    <message>
        <source>a break point cannot pass its neighbour</source>
        <translation>un punto di divisione non può superare il vicino</translation>
    </message>
    <message>
        <source>remove one of them instead</source>
        <translation>togliere invece uno dei due</translation>
    </message>
    <message>
        <source>a ring needs one break point</source>
        <translation>un anello ha bisogno di un punto di divisione</translation>
    </message>
    <message>
        <source>move it instead</source>
        <translation>spostarlo invece</translation>
    </message>
    <message>
        <source>there is no edge {0} on ring {1}</source>
        <translation>non c&apos;è un bordo {0} sull&apos;anello {1}</translation>
    </message>
    <message>
        <source>one size has {0} holes, the other {1}</source>
        <translation>una misura ha {0} fori, l&apos;altra {1}</translation>
    </message>
    <message>
        <source>draw the same holes in every size, or mark the edges of this size by hand</source>
        <translation>disegnare gli stessi fori in ogni misura, o segnare a mano i bordi di questa</translation>
    </message>
    <message>
        <source>an outline has fewer vertices than edges</source>
        <translation>un contorno ha meno vertici che bordi</translation>
    </message>
    <message>
        <source>draw this size with more points</source>
        <translation>disegnare questa misura con più punti</translation>
    </message>
    <message>
        <source>mark its break points by hand</source>
        <translation>segnare a mano i suoi punti di divisione</translation>
    </message>
    <message>
        <source>break points do not fit the outline</source>
        <translation>i punti di divisione non corrispondono al contorno</translation>
    </message>
    <message>
        <source>a turn point lies {0} mm from the nearest vertex</source>
        <translation>un punto di svolta sta a {0} mm dal vertice più vicino</translation>
    </message>
    <message>
        <source>add a break point there by hand if an edge ends there</source>
        <translation>aggiungere lì a mano un punto di divisione se un bordo vi finisce</translation>
    </message>
    <message>
        <source>the corners of this size do not match those of the base size</source>
        <translation>gli angoli di questa misura non corrispondono a quelli della misura base</translation>
    </message>
    <message>
        <source>break points placed by their share of the outline&apos;s length, kinds unconfirmed</source>
        <translation>punti di divisione posti secondo la loro quota della lunghezza del contorno, tipi da confermare</translation>
    </message>
    <message>
        <source>check every break point of this size</source>
        <translation>controllare ogni punto di divisione di questa misura</translation>
    </message>
    <message>
        <source>a cut line needs two points and the side to keep</source>
        <translation>una linea di taglio richiede due punti e il lato da tenere</translation>
    </message>
    <message>
        <source>click the side to keep</source>
        <translation>fare clic sul lato da tenere</translation>
    </message>
    <message>
        <source>the cut line has two points in one place</source>
        <translation>la linea di taglio ha due punti nello stesso posto</translation>
    </message>
    <message>
        <source>draw it on the piece</source>
        <translation>disegnarla sul pezzo</translation>
    </message>
    <message>
        <source>{0} is drawn as a copy of {1}, not as its mirror image</source>
        <translation>{0} è disegnato come copia di {1}, non come suo speculare</translation>
    </message>
    <message>
        <source>draw one hand only and let the other be mirrored</source>
        <translation>disegnare una sola mano e lasciare che l&apos;altra si faccia specchiando</translation>
    </message>
    <message>
        <source>{0} is the mirror image of {1}: both hands are drawn</source>
        <translation>{0} è lo speculare di {1}: sono disegnate tutte e due le mani</translation>
    </message>
    <message>
        <source>both are kept, and each would be cut left and right</source>
        <translation>tenuti entrambi, e ciascuno verrebbe tagliato sinistro e destro</translation>
    </message>
    <message>
        <source>take {0} out of the style: the other hand is made by mirroring</source>
        <translation>togliere {0} dal modello: l&apos;altra mano si fa specchiando</translation>
    </message>
    <message>
        <source>the backing&apos;s edge lies over that of {0} for {1} mm</source>
        <translation>il bordo del rinforzo cade su quello di {0} per {1} mm</translation>
    </message>
    <message>
        <source>set one of them back {0} mm or more further, or pink its edge: two edges on one line show as a ridge</source>
        <translation>arretrare uno dei due di altri {0} mm o più, o dentellarne il bordo: due bordi su una linea si vedono come uno scalino</translation>
    </message>
    <message>
        <source>size {0} ({1} mm2) is smaller than size {2} ({3} mm2)</source>
        <translation>la misura {0} ({1} mm2) è più piccola della misura {2} ({3} mm2)</translation>
    </message>
    <message>
        <source>check the size names in the drawing</source>
        <translation>controllare i nomi delle misure nel disegno</translation>
    </message>
    <message>
        <source>a seam allowance of {0} mm in size {1} is {2} mm in size {3}</source>
        <translation>un margine di cucitura di {0} mm nella misura {1} è di {2} mm nella misura {3}</translation>
    </message>
    <message>
        <source>allowances are the same in every size: grade the net outline and add them after</source>
        <translation>i margini sono uguali in ogni misura: sviluppare il contorno netto e aggiungerli dopo</translation>
    </message>
    <message>
        <source>an outline needs pairs of coordinates</source>
        <translation>un contorno richiede coppie di coordinate</translation>
    </message>
    <message>
        <source>check the file</source>
        <translation>controllare il file</translation>
    </message>
    <message>
        <source>an outline needs three points, there are {0}</source>
        <translation>un contorno richiede tre punti, ce ne sono {0}</translation>
    </message>
    <message>
        <source>redraw it</source>
        <translation>ridisegnarlo</translation>
    </message>
    <message>
        <source>an outline has a coordinate that is not a number</source>
        <translation>un contorno ha una coordinata che non è un numero</translation>
    </message>
    <message>
        <source>an outline encloses no area</source>
        <translation>un contorno non racchiude superficie</translation>
    </message>
    <message>
        <source>pull axis {0} deg is {1} deg off the common axis of the assembled pieces ({2} deg)</source>
        <translation>l&apos;asse di tiro di {0}° sta {1}° fuori dall&apos;asse comune dei pezzi assemblati ({2}°)</translation>
    </message>
    <message>
        <source>turn the axis onto the common one, or confirm that this one is pulled otherwise</source>
        <translation>girare l&apos;asse su quello comune, o confermare che questo è tirato altrimenti</translation>
    </message>
    <message>
        <source>cannot grade by {0} x {1}</source>
        <translation>non si può sviluppare di {0} x {1}</translation>
    </message>
    <message>
        <source>check the sizes</source>
        <translation>controllare le misure</translation>
    </message>
    <message>
        <source>graded to {0} the outline crosses itself ({1})</source>
        <translation>sviluppato a {0} il contorno incrocia sé stesso ({1})</translation>
    </message>
    <message>
        <source>check the allowances there, or draw this size</source>
        <translation>controllare lì i margini, o disegnare questa misura</translation>
    </message>
    <message>
        <source>there is no size {0}</source>
        <translation>non c&apos;è la misura {0}</translation>
    </message>
    <message>
        <source>the sizes are {0}</source>
        <translation>le misure sono {0}</translation>
    </message>
    <message>
        <source>there is no size system {0}</source>
        <translation>non c&apos;è il sistema di misure {0}</translation>
    </message>
    <message>
        <source>use one of {0}</source>
        <translation>usare uno di {0}</translation>
    </message>
    <message>
        <source>size {0} is not a number</source>
        <translation>la misura {0} non è un numero</translation>
    </message>
    <message>
        <source>write sizes like 37 or 37.5</source>
        <translation>scrivere misure come 37 o 37.5</translation>
    </message>
    <message>
        <source>sharp corners cut square at the setback&apos;s distance: {0}</source>
        <translation>angoli acuti tagliati in squadro alla distanza dell&apos;arretramento: {0}</translation>
    </message>
    <message>
        <source>places where the setback changes on a smooth stretch: {0}</source>
        <translation>punti in cui l&apos;arretramento cambia su un tratto liscio: {0}</translation>
    </message>
    <message>
        <source>edges shorter than their setback: {0}</source>
        <translation>bordi più corti del loro arretramento: {0}</translation>
    </message>
    <message>
        <source>{0}: places {1}, total {2} mm2</source>
        <translation>{0}: punti {1}, in tutto {2} mm2</translation>
    </message>
    <message>
        <source>notches of the upper without backing behind them: {0}</source>
        <translation>tacche della tomaia senza rinforzo dietro: {0}</translation>
    </message>
    <message>
        <source>edge kinds that are only suggestions: {0}</source>
        <translation>tipi di bordo che sono solo proposte: {0}</translation>
    </message>
    <message>
        <source>edges on which the backing reaches the cut edge: {0}</source>
        <translation>bordi su cui il rinforzo arriva al taglio: {0}</translation>
    </message>
    <message>
        <source>edges on which the backing runs past the upper: {0}</source>
        <translation>bordi su cui il rinforzo sporge oltre la tomaia: {0}</translation>
    </message>
    <message>
        <source>overlapping edges on which the backing ends inside a stitch 1.5-2 mm from the edge: {0}</source>
        <translation>bordi sovrapposti su cui il rinforzo finisce all&apos;interno di una cucitura a 1,5-2 mm dal bordo: {0}</translation>
    </message>
    <message>
        <source>the edge of a hole cannot be a centre line</source>
        <translation>il bordo di un foro non è una mezzeria</translation>
    </message>
    <message>
        <source>matched by its shape with {0} of the drawing</source>
        <translation>abbinato per la forma a {0} del disegno</translation>
    </message>
    <message>
        <source>things drawn on the piece were carried to the nearest points of the new outline: check them</source>
        <translation>ciò che è disegnato sul pezzo è stato riportato ai punti più vicini del nuovo contorno: controllarlo</translation>
    </message>
    <message>
        <source>measure the last&apos;s joint girth</source>
        <translation>misurare la circonferenza della forma alle dita</translation>
    </message>
    <message>
        <source>size {0} would have a girth of {1} mm</source>
        <translation>la misura {0} avrebbe una calzata di {1} mm</translation>
    </message>
    <message>
        <source>size {0} would have a last of {1} mm</source>
        <translation>la misura {0} avrebbe una forma di {1} mm</translation>
    </message>
    <message>
        <source>check the size and the system</source>
        <translation>controllare la misura e il sistema</translation>
    </message>
    <message>
        <source>check the size and the base girth</source>
        <translation>controllare la misura e la calzata di base</translation>
    </message>
    <message>
        <source>there are no sizes in {0}</source>
        <translation>non ci sono misure in {0}</translation>
    </message>
    <message>
        <source>write them like 36-41 or 36,38-40</source>
        <translation>scriverle come 36-41 o 36,38-40</translation>
    </message>
    <message>
        <source>the range {0}-{1} runs backwards</source>
        <translation>l&apos;intervallo {0}-{1} va all&apos;indietro</translation>
    </message>
    <message>
        <source>write {0}-{1}</source>
        <translation>scrivere {0}-{1}</translation>
    </message>
    <message>
        <source>the range {0}-{1} holds {2} sizes</source>
        <translation>l&apos;intervallo {0}-{1} contiene {2} misure</translation>
    </message>
    <message>
        <source>check both ends</source>
        <translation>controllare i due estremi</translation>
    </message>
    <message>
        <source>cannot read sizes {0}</source>
        <translation>non si leggono le misure {0}</translation>
    </message>
    <message>
        <source>large strain does not settle</source>
        <translation>il calcolo a grandi deformazioni non converge</translation>
    </message>
    <message>
        <source>lower the pull or check the constants</source>
        <translation>abbassare il tiro o controllare le costanti</translation>
    </message>
    <message>
        <source>stopped before the field was solved</source>
        <translation>fermato prima che il campo fosse risolto</translation>
    </message>
    <message>
        <source>start it again</source>
        <translation>avviarlo di nuovo</translation>
    </message>
    <message>
        <source>the sheet gives way under the pull</source>
        <translation>il foglio cede del tutto sotto il tiro</translation>
    </message>
    <message>
        <source>check its constants</source>
        <translation>controllarne le costanti</translation>
    </message>
    <message>
        <source>nothing holds the piece</source>
        <translation>nulla tiene il pezzo</translation>
    </message>
    <message>
        <source>the field has no finite answer</source>
        <translation>il campo non ha soluzione finita</translation>
    </message>
    <message>
        <source>check constants and supports</source>
        <translation>controllare costanti e appoggi</translation>
    </message>
    <message>
        <source>the field cannot be solved ({0})</source>
        <translation>il campo non si può risolvere ({0})</translation>
    </message>
    <message>
        <source>the piece is too thin for its elements</source>
        <translation>il pezzo è troppo sottile per i suoi elementi</translation>
    </message>
    <message>
        <source>take smaller elements</source>
        <translation>prendere elementi più piccoli</translation>
    </message>
    <message>
        <source>there is no piece to pull</source>
        <translation>non c&apos;è pezzo da tirare</translation>
    </message>
    <message>
        <source>choose a piece</source>
        <translation>scegliere un pezzo</translation>
    </message>
    <message>
        <source>check the corner</source>
        <translation>guardare l&apos;angolo</translation>
    </message>
    <message>
        <source>a larger mitre limit keeps it pointed</source>
        <translation>un limite di mitra maggiore lo tiene a punta</translation>
    </message>
    <message>
        <source>stepped square to the edge</source>
        <translation>fatto un gradino in quadro sul bordo</translation>
    </message>
    <message>
        <source>move the break point to a corner, or let the setback run along an edge</source>
        <translation>spostare il punto di divisione su uno spigolo, o far variare l’arretramento lungo un bordo</translation>
    </message>
    <message>
        <source>check the backing there</source>
        <translation>guardare lì il rinforzo</translation>
    </message>
    <message>
        <source>taken off</source>
        <translation>tolto</translation>
    </message>
    <message>
        <source>no backing is left: the setbacks are wider than the piece</source>
        <translation>non resta rinforzo: gli arretramenti sono più larghi del pezzo</translation>
    </message>
    <message>
        <source>make setbacks smaller, or mark the piece as not backed</source>
        <translation>ridurre gli arretramenti, o segnare il pezzo come non rinforzato</translation>
    </message>
    <message>
        <source>all parts kept</source>
        <translation>tenute tutte le parti</translation>
    </message>
    <message>
        <source>make the setbacks at the neck smaller, or cut the parts one by one</source>
        <translation>ridurre gli arretramenti alla strozzatura, o tagliare le parti una a una</translation>
    </message>
    <message>
        <source>the upper was changed after its backing was derived</source>
        <translation>la tomaia è stata cambiata dopo averne ricavato il rinforzo</translation>
    </message>
    <message>
        <source>derive the backing again</source>
        <translation>ricavare di nuovo il rinforzo</translation>
    </message>
    <message>
        <source>the pull axis ({0} deg) is a proposal from the {1}</source>
        <translation>l&apos;asse di tiro ({0}°) è una proposta da: {1}</translation>
    </message>
    <message>
        <source>compare it with the lasting pull, heel to toe, and confirm</source>
        <translation>confrontarlo con il tiro del montaggio, dal tallone alla punta, e confermare</translation>
    </message>
    <message>
        <source>set it back: glue comes out on the press, folds get bulky, the cloth shows at a raw edge (garment interlinings: 3-4 mm, Vilumsone-Nemes p. 192)</source>
        <translation>arretrarlo: la colla esce sulla pressa, i ripiegati si ingrossano, il tessuto si vede su un bordo al vivo (teline per abiti: 3-4 mm, Vilumsone-Nemes p. 192)</translation>
    </message>
    <message>
        <source>only for work trimmed after fusing</source>
        <translation>solo per lavoro rifilato dopo la termoadesione</translation>
    </message>
    <message>
        <source>cover the press so that no glue gets on it</source>
        <translation>coprire la pressa perché non vi arrivi colla</translation>
    </message>
    <message>
        <source>set it back 1 mm at most if the stitch is to catch it</source>
        <translation>arretrarlo di 1 mm al massimo se la cucitura deve prenderlo</translation>
    </message>
    <message>
        <source>the backing ends within the piece for {0} mm</source>
        <translation>il rinforzo finisce dentro il pezzo per {0} mm</translation>
    </message>
    <message>
        <source>on thin or smooth leather pink this edge, or lay it under a seam or another piece</source>
        <translation>su pelle sottile o liscia dentellare questo bordo, o metterlo sotto una cucitura o un altro pezzo</translation>
    </message>
    <message>
        <source>the backing ({0} mm2) is larger than its upper ({1} mm2)</source>
        <translation>il rinforzo ({0} mm2) è più grande della sua tomaia ({1} mm2)</translation>
    </message>
    <message>
        <source>check the negative setbacks</source>
        <translation>controllare gli arretramenti negativi</translation>
    </message>
    <message>
        <source>the backing ends {0} mm inside the turned part of a fold</source>
        <translation>il rinforzo finisce {0} mm dentro la parte ripiegata</translation>
    </message>
    <message>
        <source>end it 0.5-1 mm before the fold line, or 5-6 mm past it to strengthen the fold</source>
        <translation>finirlo 0,5-1 mm prima della linea di ripiego, o 5-6 mm oltre per rinforzare il ripiego</translation>
    </message>
    <message>
        <source>a lasting edge has no lasting allowance, so the feather line is not known</source>
        <translation>un bordo di montaggio non ha margine di montaggio, quindi lo spigolo del fondo non è noto</translation>
    </message>
    <message>
        <source>enter the lasting allowance</source>
        <translation>scrivere il margine di montaggio</translation>
    </message>
    <message>
        <source>the backing ends on the feather line for {0} mm</source>
        <translation>il rinforzo finisce sullo spigolo del fondo per {0} mm</translation>
    </message>
    <message>
        <source>end it 3-5 mm before the feather line, or 5-8 mm past it so that lasting holds it</source>
        <translation>finirlo 3-5 mm prima dello spigolo del fondo, o 5-8 mm oltre perché il montaggio lo tenga</translation>
    </message>
    <message>
        <source>the backing falls into {0} parts of {1} mm2</source>
        <translation>il rinforzo si divide in {0} parti di {1} mm2</translation>
    </message>
    <message>
        <source>narrower than {0} mm cannot be cut</source>
        <translation>più stretto di {0} mm non si può tagliare</translation>
    </message>
    <message>
        <source>outer corners rounded to {0} mm or as far as there is room</source>
        <translation>angoli esterni arrotondati a {0} mm o fin dove c&apos;è posto</translation>
    </message>
    <message>
        <source>find the edges again</source>
        <translation>trovare di nuovo i bordi</translation>
    </message>
    <message>
        <source>choose the kind of each edge, and confirm it</source>
        <translation>scegliere il tipo di ogni bordo e confermarlo</translation>
    </message>
    <message>
        <source>the edges of the base size cannot be identified on this size</source>
        <translation>i bordi della misura base non si riconoscono in questa misura</translation>
    </message>
    <message>
        <source>the glue side does not allow turning over</source>
        <translation>il lato adesivo vieta di girarlo sotto sopra</translation>
    </message>
    <message>
        <source>a girth of {0} mm is not possible</source>
        <translation>una calzata di {0} mm non è possibile</translation>
    </message>
    <message>
        <source>state which edge is held</source>
        <translation>dire quale bordo è tenuto</translation>
    </message>
    <message>
        <source>check that the piece is in one part</source>
        <translation>controllare che il pezzo sia in una parte sola</translation>
    </message>
    <message>
        <source>join the edge with its neighbour unless it is an edge</source>
        <translation>unire il bordo al vicino se non è un bordo a sé</translation>
    </message>
    <message>
        <source>the tension field does not settle</source>
        <translation>il campo di sola trazione non converge</translation>
    </message>
    <message>
        <source>use the plain answer</source>
        <translation>prendere il risultato semplice</translation>
    </message>
    <message>
        <source>the piece would give more than its own length under {0} N/mm</source>
        <translation>sotto {0} N/mm il pezzo cederebbe più della sua lunghezza</translation>
    </message>
    <message>
        <source>check the pull and the constants of upper and cloth, in N per mm of width</source>
        <translation>verificare il tiro e le costanti di tomaia e tessuto, in N per mm di larghezza</translation>
    </message>
    <message>
        <source>the centre edge is not straight</source>
        <translation>il bordo di mezzeria non è diritto</translation>
    </message>
    <message>
        <source>choose the straight edge along the fold, or set its two break points</source>
        <translation>scegliere il bordo diritto lungo la piega, o spostarne i due punti di divisione</translation>
    </message>
    <message>
        <source>check which edge is the centre line</source>
        <translation>controllare quale bordo è la mezzeria</translation>
    </message>
    <message>
        <source>the two halves differ by up to {0} mm over this line</source>
        <translation>le due metà differiscono fino a {0} mm rispetto a questa linea</translation>
    </message>
    <message>
        <source>choose the line over which the piece is the same on both sides</source>
        <translation>scegliere la linea rispetto a cui il pezzo è uguale dalle due parti</translation>
    </message>
    <message>
        <source>the line does not divide the piece in two</source>
        <translation>la linea non divide il pezzo in due</translation>
    </message>
    <message>
        <source>{0} and {1} look as if their names were swapped in the drawing</source>
        <translation>{0} e {1} sembrano avere i nomi scambiati nel disegno</translation>
    </message>
    <message>
        <source>chain {0} lost a piece</source>
        <translation>la catena {0} ha perso un pezzo</translation>
    </message>
    <message>
        <source>edge kinds to check, not carried over with certainty: {0}</source>
        <translation>tipi di bordo da controllare, non riportati con certezza: {0}</translation>
    </message>
    <message>
        <source>the hold line leaves the new outline: draw it again</source>
        <translation>la linea di tenuta esce dal nuovo contorno: ritracciarla</translation>
    </message>
    <message>
        <source>size {0} is not in the revised drawing: graded from the base size now</source>
        <translation>la misura {0} non è nel disegno rivisto: ora è sviluppata dalla misura base</translation>
    </message>
    <message>
        <source>size {0} is not in the revised drawing: missing now</source>
        <translation>la misura {0} non è nel disegno rivisto: ora manca</translation>
    </message>
    <message>
        <source>{0} of {1} edge kinds are suggestions</source>
        <translation>{0} tipi di bordo su {1} sono proposte</translation>
    </message>
    <message>
        <source>the edge kinds are suggestions</source>
        <translation>i tipi di bordo sono proposte</translation>
    </message>
    <message>
        <source>the pull axis {0} deg is a proposal (from {1})</source>
        <translation>l&apos;asse di tiro di {0}° è una proposta (da {1})</translation>
    </message>
    <message>
        <source>the tight direction {0} deg of {1} is assumed</source>
        <translation>il senso rigido di {0}° di {1} è presunto</translation>
    </message>
    <message>
        <source>confirm them</source>
        <translation>confermarli</translation>
    </message>
    <message>
        <source>confirm or turn it</source>
        <translation>confermarlo o girarlo</translation>
    </message>
    <message>
        <source>test a strip each way, or take the supplier&apos;s statement, and enter how it is known</source>
        <translation>tirare una striscia per verso, o prendere il dato del fornitore, e indicare come è noto</translation>
    </message>
    <message>
        <source>the line misses the piece</source>
        <translation>la linea manca il pezzo</translation>
    </message>
    <message>
        <source>a mirror line has no length</source>
        <translation>una linea di specchio non ha lunghezza</translation>
    </message>
    <message>
        <source>give two points apart from each other</source>
        <translation>dare due punti distanti tra loro</translation>
    </message>
    <message>
        <source>no edge faces the {0}</source>
        <translation>nessun bordo guarda verso {0}</translation>
    </message>
    <message>
        <source>toe</source>
        <translation>punta</translation>
    </message>
    <message>
        <source>heel</source>
        <translation>tallone</translation>
    </message>
    <message>
        <source>check edge kinds and pull axis</source>
        <translation>verificare i tipi di bordo e l’asse di tiro</translation>
    </message>
    <message>
        <source>no piece of {0} is backed</source>
        <translation>nessun pezzo di {0} ha rinforzo</translation>
    </message>
    <message>
        <source>give a piece a backing layer</source>
        <translation>dare a un pezzo uno strato di rinforzo</translation>
    </message>
    <message>
        <source>there is no area to pull</source>
        <translation>non c’è area da tirare</translation>
    </message>
    <message>
        <source>check the outline of the piece</source>
        <translation>verificare il contorno del pezzo</translation>
    </message>
    <message>
        <source>the hold line has no length</source>
        <translation>la linea di tenuta non ha lunghezza</translation>
    </message>
    <message>
        <source>draw it from heel to throat</source>
        <translation>tracciarla dal tallone allo scollo</translation>
    </message>
    <message>
        <source>a chain of hold lines needs lines under one pull</source>
        <translation>una catena di linee di tenuta richiede linee sotto un solo tiro</translation>
    </message>
    <message>
        <source>draw its hold lines</source>
        <translation>tracciare le sue linee di tenuta</translation>
    </message>
    <message>
        <source>size {0} is not a size of {1}</source>
        <translation>la misura {0} non è una misura di {1}</translation>
    </message>
    <message>
        <source>its sizes are {0}</source>
        <translation>le sue misure sono {0}</translation>
    </message>
    <message>
        <source>{0} keeps its limit up to {1} deg off the tight direction, the style lets the lay turn it by {2}</source>
        <translation>{0} tiene il limite fino a {1}° dal senso rigido, il modello permette al piazzamento di girarlo di {2}</translation>
    </message>
    <message>
        <source>lower the style&apos;s turn tolerance</source>
        <translation>abbassare la tolleranza di rotazione del modello</translation>
    </message>
    <message>
        <source>the style has no cloth {0}</source>
        <translation>il modello non ha il tessuto {0}</translation>
    </message>
    <message>
        <source>its cloths are {0}</source>
        <translation>i suoi tessuti sono {0}</translation>
    </message>
    <message>
        <source>add one</source>
        <translation>aggiungerne uno</translation>
    </message>
    <message>
        <source>gives {0} mm under {1} N/mm, limit {2} mm</source>
        <translation>cede {0} mm sotto {1} N/mm, limite {2} mm</translation>
    </message>
    <message>
        <source>turn the cloth, take a tighter or a second layer, or try it on the last</source>
        <translation>girare il tessuto, prenderne uno più rigido o un secondo strato, o provare sulla forma</translation>
    </message>
    <message>
        <source>the hold line lies {0} deg off the pull axis</source>
        <translation>la linea di tenuta sta {0}° fuori dall&apos;asse di tiro</translation>
    </message>
    <message>
        <source>its length along the pull axis was taken</source>
        <translation>presa la sua lunghezza lungo l&apos;asse di tiro</translation>
    </message>
    <message>
        <source>{0} mm of the hold line lie outside the piece</source>
        <translation>{0} mm della linea di tenuta stanno fuori dal pezzo</translation>
    </message>
    <message>
        <source>that part was taken as upper without backing</source>
        <translation>quella parte vale come tomaia senza rinforzo</translation>
    </message>
    <message>
        <source>draw it within the piece</source>
        <translation>tracciarla dentro il pezzo</translation>
    </message>
    <message>
        <source>gives {0} mm, the limit of {1} mm lies between</source>
        <translation>cede {0} mm, il limite di {1} mm sta in mezzo</translation>
    </message>
    <message>
        <source>pull strips at 0, 45 and 90 degrees to the axis: Stretch tests, or &apos;stretch --upper&apos;</source>
        <translation>tirare strisce a 0, 45 e 90 gradi dall&apos;asse di tiro: Prove di allungamento, o &apos;stretch --upper&apos;</translation>
    </message>
    <message>
        <source>pull strips at 0, 45, 90 and 135 degrees: Stretch tests, or &apos;stretch&apos;</source>
        <translation>tirare strisce a 0, 45, 90 e 135 gradi: Prove di allungamento, o &apos;stretch&apos;</translation>
    </message>
    <message>
        <source>{0} is in the register already, revision {1} of {2} by {3}</source>
        <translation>{0} sta già nel registro, revisione {1} del {2} di {3}</translation>
    </message>
    <message>
        <source>{0} on {1}: measured over predicted {2}, trials: {3}</source>
        <translation>{0} su {1}: misurato su previsto {2}, prove: {3}</translation>
    </message>
    <message>
        <source>not determined</source>
        <translation>non determinato</translation>
    </message>
    <message>
        <source>only along or across tested</source>
        <translation>provato solo lungo o traverso</translation>
    </message>
    <message>
        <source>1 = straight</source>
        <translation>1 = diritto</translation>
    </message>
    <message>
        <source>permitted tilt {0}°</source>
        <translation>inclinazione ammessa {0}°</translation>
    </message>
    <message>
        <source>chain {0} gives {1} mm under {2} N/mm, limit {3} mm</source>
        <translation>la catena {0} cede {1} mm sotto {2} N/mm, limite {3} mm</translation>
    </message>
    <message>
        <source>test the 45-degree strips again: narrow, long, not held askew in wide jaws</source>
        <translation>riprovare le strisce a 45 gradi: strette, lunghe, non tenute storte da morsetti larghi</translation>
    </message>
    <message>
        <source>strips at one angle only ({0} deg) say nothing about the other angles</source>
        <translation>strisce a un solo angolo ({0}°) non dicono nulla degli altri</translation>
    </message>
    <message>
        <source>strips at {0} deg do not give the shear stiffness</source>
        <translation>strisce a {0}° non danno la rigidezza a taglio</translation>
    </message>
    <message>
        <source>the strips do not determine the tight direction</source>
        <translation>le strisce non determinano il senso rigido</translation>
    </message>
    <message>
        <source>the same load appears twice</source>
        <translation>lo stesso carico c&apos;è due volte</translation>
    </message>
    <message>
        <source>no upper or backing stretches that far: check that both are in mm</source>
        <translation>nessuna tomaia o rinforzo si allunga tanto: controllare che siano in mm</translation>
    </message>
    <message>
        <source>&apos;{0}&apos; is not a ranking</source>
        <translation>&apos;{0}&apos; non è una graduatoria</translation>
    </message>
    <message>
        <source>{0} and {1} deg feel alike: by hand the tight direction cannot be determined</source>
        <translation>{0} e {1}° si sentono uguali: a mano il senso rigido non si può determinare</translation>
    </message>
    <message>
        <source>chain {0}: {1} has no hold line</source>
        <translation>catena {0}: {1} non ha una linea di tenuta</translation>
    </message>
    <message>
        <source>no piece</source>
        <translation>nessun pezzo</translation>
    </message>
    <message>
        <source>the chain is not judged</source>
        <translation>la catena non è giudicata</translation>
    </message>
    <message>
        <source>draw the line from heel to throat, or take the chain apart</source>
        <translation>tracciare la linea dal tallone allo scollo, o sciogliere la catena</translation>
    </message>
    <message>
        <source>the strips of {0} say that its tight direction lies at {1} deg, its card says {2}</source>
        <translation>le strisce di {0} dicono che il senso rigido sta a {1}°, la scheda dice {2}</translation>
    </message>
    <message>
        <source>the pieces are judged as the card would have them laid</source>
        <translation>i pezzi sono giudicati come li farebbe piazzare la scheda</translation>
    </message>
    <message>
        <source>correct the card, and lay the pieces again</source>
        <translation>correggere la scheda e piazzare di nuovo i pezzi</translation>
    </message>
    <message>
        <source>by its constants {0} gives less at right angles to its tight direction than along it (E1 {1}, E2 {2} N/mm)</source>
        <translation>per le sue costanti {0} cede meno ad angolo retto dal senso rigido che lungo esso (E1 {1}, E2 {2} N/mm)</translation>
    </message>
    <message>
        <source>turn the card&apos;s tight direction by 90 degrees and swap E1 and E2</source>
        <translation>girare di 90 gradi il senso rigido della scheda e scambiare E1 con E2</translation>
    </message>
    <message>
        <source>the stretch of {0} is not known</source>
        <translation>l&apos;allungamento di {0} non è noto</translation>
    </message>
    <message>
        <source>the upper material</source>
        <translation>la tomaia</translation>
    </message>
    <message>
        <source>the constants of its card were used instead</source>
        <translation>usate al loro posto le costanti della scheda</translation>
    </message>
    <message>
        <source>the hold line of {0} has no length</source>
        <translation>la linea di tenuta di {0} non ha lunghezza</translation>
    </message>
    <message>
        <source>press on a piece: its hold line runs from heel to throat</source>
        <translation>premere su un pezzo: la sua linea di tenuta va dal tallone allo scollo</translation>
    </message>
    <message>
        <source>{0} has no hold line</source>
        <translation>{0} non ha una linea di tenuta</translation>
    </message>
    <message>
        <source>draw it from heel to throat first</source>
        <translation>tracciarla prima dal tallone allo scollo</translation>
    </message>
    <message>
        <source>draw it on the Draft desk first</source>
        <translation>tracciarla prima al banco Modello</translation>
    </message>
    <message>
        <source>the hold line of {0} is part of the chain {1}</source>
        <translation>la linea di tenuta di {0} fa parte della catena {1}</translation>
    </message>
    <message>
        <source>undo the chain first, on the Cloth desk</source>
        <translation>sciogliere prima la catena, al banco Tessuto</translation>
    </message>
    <message>
        <source>a chain runs over two pieces or more</source>
        <translation>una catena va su due pezzi o più</translation>
    </message>
    <message>
        <source>choose the pieces from heel to throat</source>
        <translation>scegliere i pezzi dal tallone allo scollo</translation>
    </message>
    <message>
        <source>a limit of {0} mm</source>
        <translation>un limite di {0} mm</translation>
    </message>
    <message>
        <source>give one above zero, or none</source>
        <translation>darne uno sopra zero, o nessuno</translation>
    </message>
    <message>
        <source>give one above zero</source>
        <translation>darne uno sopra zero</translation>
    </message>
    <message>
        <source>lasting takes about 1</source>
        <translation>il montaggio ne prende circa 1</translation>
    </message>
    <message>
        <source>{0} was changed in the register at {1} by {2} (revision {3}</source>
        <translation>{0} è stato cambiato nel registro il {1} da {2} (revisione {3}</translation>
    </message>
    <message>
        <source>yours is based on {0})</source>
        <translation>la propria parte da {0})</translation>
    </message>
    <message>
        <source>{0} was taken out of the register at {1} by {2} (revision {3}</source>
        <translation>{0} è stato tolto dal registro il {1} da {2} (revisione {3}</translation>
    </message>
    <message>
        <source>another desk</source>
        <translation>un altro banco</translation>
    </message>
    <message>
        <source>look at the card as it is now</source>
        <translation>guardare la scheda com&apos;è ora</translation>
    </message>
    <message>
        <source>filing over it keeps it in the history</source>
        <translation>mettendoci sopra la propria, resta nella storia</translation>
    </message>
    <message>
        <source>{0} trials are needed to say how they scatter</source>
        <translation>servono {0} prove per dire quanto variano</translation>
    </message>
    <message>
        <source>the next within {0} to {1} ({2})</source>
        <translation>la prossima fra {0} e {1} ({2})</translation>
    </message>
    <message>
        <source>a {0} trial of {1} without a result</source>
        <translation>una prova ({0}) di {1} senza risultato</translation>
    </message>
    <message>
        <source>enter one of its figures, or a note</source>
        <translation>inserire una delle sue cifre, o una nota</translation>
    </message>
    <message>
        <source>lasting</source>
        <translation>montaggio</translation>
    </message>
    <message>
        <source>skiving</source>
        <translation>scarnitura</translation>
    </message>
    <message>
        <source>fused-sample</source>
        <translation>campione pressato</translation>
    </message>
    <message>
        <source>tight direction</source>
        <translation>senso rigido</translation>
    </message>
    <message>
        <source>E1, along it</source>
        <translation>E1, lungo esso</translation>
    </message>
    <message>
        <source>E2, across it</source>
        <translation>E2, di traverso</translation>
    </message>
    <message>
        <source>G12, shear</source>
        <translation>G12, taglio</translation>
    </message>
    <message>
        <source>scatter of strips</source>
        <translation>dispersione delle strisce</translation>
    </message>
    <message>
        <source>yes</source>
        <translation>sì</translation>
    </message>
    <message>
        <source>NO</source>
        <translation>NO</translation>
    </message>
    <message>
        <source>{0} to {1}</source>
        <translation>da {0} a {1}</translation>
    </message>
    <message>
        <source>{0} deg</source>
        <translation>{0}°</translation>
    </message>
    <message>
        <source>0 along the roll</source>
        <translation>0 lungo il rotolo</translation>
    </message>
    <message>
        <source>0 pull axis</source>
        <translation>0 asse di tiro</translation>
    </message>
    <message>
        <source>90 across</source>
        <translation>90 di traverso</translation>
    </message>
    <message>
        <source>upper alone</source>
        <translation>sola tomaia</translation>
    </message>
    <message>
        <source>limit {0} mm</source>
        <translation>limite {0} mm</translation>
    </message>
    <message>
        <source>{0}: mm over the hold line</source>
        <translation>{0}: mm sulla linea di tenuta</translation>
    </message>
    <message>
        <source>{0}: inches over the hold line</source>
        <translation>{0}: pollici sulla linea di tenuta</translation>
    </message>
    <message>
        <source>predicted, in</source>
        <translation>previsto, in</translation>
    </message>
    <message>
        <source>measured, in</source>
        <translation>misurato, in</translation>
    </message>
    <message>
        <source>degrees off its place on the roll</source>
        <translation>gradi fuori dal suo posto sul rotolo</translation>
    </message>
    <message>
        <source>No published measurement of leather with fused cloth against angle was found: these figures are the mechanics of two sheets glued together. The strip test and the lasting trial decide.</source>
        <translation>Nessuna misura pubblicata di pelle con tessuto pressato secondo l&apos;angolo è stata trovata: queste cifre sono la meccanica di due fogli incollati. Decidono la prova a striscia e la prova di montaggio.</translation>
    </message>
    <message>
        <source>{0} ({1} in the lay)</source>
        <translation>{0} ({1} nel piazzamento)</translation>
    </message>
    <message>
        <source>a lasting trial must decide</source>
        <translation>deve deciderlo una prova di montaggio</translation>
    </message>
    <message>
        <source>turned {0} deg off the tight direction, {1} mm</source>
        <translation>girato di {0}° dal senso rigido, {1} mm</translation>
    </message>
    <message>
        <source>gives {0} mm under the pull, limit {1} mm</source>
        <translation>cede {0} mm sotto il tiro, limite {1} mm</translation>
    </message>
    <message>
        <source>gives {0} mm under the pull</source>
        <translation>cede {0} mm sotto il tiro</translation>
    </message>
    <message>
        <source>assumed</source>
        <translation>presunto</translation>
    </message>
    <message>
        <source>begin on a piece</source>
        <translation>cominciare su un pezzo</translation>
    </message>
    <message>
        <source>click where the line begins</source>
        <translation>fare clic dove comincia la linea</translation>
    </message>
    <message>
        <source>click where the piece begins</source>
        <translation>fare clic dove comincia il pezzo</translation>
    </message>
    <message>
        <source>the shape needs more corners</source>
        <translation>alla forma servono altri angoli</translation>
    </message>
    <message>
        <source>the line needs more points</source>
        <translation>la linea richiede altri punti</translation>
    </message>
    <message>
        <source>{0} cannot be drawn: no such length fits a piece</source>
        <translation>{0} non si può disegnare: nessuna lunghezza simile sta in un pezzo</translation>
    </message>
    <message>
        <source>no such length fits a piece</source>
        <translation>nessuna lunghezza simile sta in un pezzo</translation>
    </message>
    <message>
        <source>the line crosses no piece</source>
        <translation>la linea non attraversa alcun pezzo</translation>
    </message>
    <message>
        <source>a stretch is changed by hand, by up to {0} mm</source>
        <translation>un tratto è cambiato a mano, fino a {0} mm</translation>
    </message>
    <message>
        <source>kept in every size</source>
        <translation>tenuto in ogni misura</translation>
    </message>
    <message>
        <source>a stretch changed by hand lies {0} mm from an edge whose setback is {1} mm</source>
        <translation>un tratto cambiato a mano sta a {0} mm da un bordo il cui arretramento è {1} mm</translation>
    </message>
    <message>
        <source>a stretch changed by hand lies {0} mm beyond an edge whose setback is {1} mm</source>
        <translation>un tratto cambiato a mano sta {0} mm oltre un bordo il cui arretramento è {1} mm</translation>
    </message>
    <message>
        <source>a cut-out meets the outline or another cut-out</source>
        <translation>un&apos;apertura tocca il contorno o un&apos;altra apertura</translation>
    </message>
    <message>
        <source>taken off the piece, {0} left</source>
        <translation>tolta dal pezzo, ne resta {0}</translation>
    </message>
    <message>
        <source>outlines on layers {0} and {1} overlap in part</source>
        <translation>i contorni sui livelli {0} e {1} si sovrappongono in parte</translation>
    </message>
    <message>
        <source>kept as two pieces</source>
        <translation>tenuti come due pezzi</translation>
    </message>
    <message>
        <source>draw the pieces apart if they are two, or join them if they are one</source>
        <translation>separare i pezzi se sono due, o unirli se sono uno</translation>
    </message>
    <message>
        <source>outlines of {0} blocks lie over each other, like sizes</source>
        <translation>contorni di {0} blocchi stanno l&apos;uno sull&apos;altro, come misure</translation>
    </message>
    <message>
        <source>each is read as a piece, none as a cut-out</source>
        <translation>ciascuno è letto come pezzo, nessuno come apertura</translation>
    </message>
    <message>
        <source>{0} closed areas share lines</source>
        <translation>{0} superfici chiuse hanno linee in comune</translation>
    </message>
    <message>
        <source>each area is read as a piece of its own</source>
        <translation>ogni superficie è letta come un pezzo a sé</translation>
    </message>
    <message>
        <source>if a line only marks a piece, draw it on another layer</source>
        <translation>se una linea segna soltanto un pezzo, disegnarla su un altro livello</translation>
    </message>
    <message>
        <source>the ends were brought together</source>
        <translation>i capi sono stati uniti</translation>
    </message>
    <message>
        <source>an outline on layer {0} is drawn twice, slightly apart</source>
        <translation>un contorno sul livello {0} è disegnato due volte, un poco spostato</translation>
    </message>
    <message>
        <source>the outer one is kept</source>
        <translation>tenuto quello esterno</translation>
    </message>
    <message>
        <source>delete the wrong one in the drawing</source>
        <translation>cancellare nel disegno quello sbagliato</translation>
    </message>
    <message>
        <source>read as a cut-out</source>
        <translation>letta come apertura</translation>
    </message>
    <message>
        <source>if it is a stitch or feather line, leave it open or switch its layer off</source>
        <translation>se è una linea di cucitura o lo spigolo del fondo, lasciarla aperta o spegnerne il livello</translation>
    </message>
    <message>
        <source>{0} could not be read</source>
        <translation>{0} non si sono potuti leggere</translation>
    </message>
    <message>
        <source>export the drawing again</source>
        <translation>esportare di nuovo il disegno</translation>
    </message>
    <message>
        <source>compare the pieces with it</source>
        <translation>confrontare con esso i pezzi</translation>
    </message>
    <message>
        <source>line {0} should hold a group code: the file is damaged there</source>
        <translation>la riga {0} dovrebbe contenere un codice di gruppo: lì il file è danneggiato</translation>
    </message>
    <message>
        <source>read up to that line</source>
        <translation>letto fino a quella riga</translation>
    </message>
    <message>
        <source>compare the pieces with the drawing, or export it again</source>
        <translation>confrontare i pezzi con il disegno, o esportarlo di nuovo</translation>
    </message>
    <message>
        <source>the end mark is missing</source>
        <translation>manca il segno di fine</translation>
    </message>
    <message>
        <source>dropped: {0}</source>
        <translation>tralasciati: {0}</translation>
    </message>
    <message>
        <source>read as it stands</source>
        <translation>letto così com&apos;è</translation>
    </message>
    <message>
        <source>the file holds entities that its version does not know</source>
        <translation>il file contiene entità che la sua versione non conosce</translation>
    </message>
    <message>
        <source>read as R2000</source>
        <translation>letto come R2000</translation>
    </message>
    <message>
        <source>{0} entities lack the class marker of their kind</source>
        <translation>a {0} entità manca il segno di classe del loro tipo</translation>
    </message>
    <message>
        <source>the file breaks the rules of the format ({0})</source>
        <translation>il file viola le regole del formato ({0})</translation>
    </message>
    <message>
        <source>read in recovery mode</source>
        <translation>letto in modo di recupero</translation>
    </message>
    <message>
        <source>compare the pieces with the drawing</source>
        <translation>confrontare i pezzi con il disegno</translation>
    </message>
    <message>
        <source>the drawing is damaged ({0})</source>
        <translation>il disegno è danneggiato ({0})</translation>
    </message>
    <message>
        <source>open it in the program that made it and export it again</source>
        <translation>aprirlo nel programma che l&apos;ha fatto ed esportarlo di nuovo</translation>
    </message>
    <message>
        <source>save it as DXF in the program that made it</source>
        <translation>salvarlo come DXF nel programma che l&apos;ha fatto</translation>
    </message>
    <message>
        <source>&quot;{0}&quot; in line {1} should be a number</source>
        <translation>&quot;{0}&quot; alla riga {1} dovrebbe essere un numero</translation>
    </message>
    <message>
        <source>the file is damaged there: export the drawing again</source>
        <translation>lì il file è danneggiato: esportare di nuovo il disegno</translation>
    </message>
    <message>
        <source>numbers are written with a decimal comma (&quot;{0}&quot;, line {1})</source>
        <translation>i numeri sono scritti con la virgola decimale (&quot;{0}&quot;, riga {1})</translation>
    </message>
    <message>
        <source>export again with a decimal point</source>
        <translation>esportare di nuovo con il punto decimale</translation>
    </message>
    <message>
        <source>the file is empty (0 bytes)</source>
        <translation>il file è vuoto (0 byte)</translation>
    </message>
    <message>
        <source>this is a DWG drawing</source>
        <translation>questo è un disegno DWG</translation>
    </message>
    <message>
        <source>save it as DXF</source>
        <translation>salvarlo come DXF</translation>
    </message>
    <message>
        <source>this is {0}</source>
        <translation>questo è {0}</translation>
    </message>
    <message>
        <source>this is a folder</source>
        <translation>questa è una cartella</translation>
    </message>
    <message>
        <source>name a DXF file in it</source>
        <translation>indicarvi un file DXF</translation>
    </message>
    <message>
        <source>name a DXF file</source>
        <translation>indicare un file DXF</translation>
    </message>
    <message>
        <source>the file is too large ({0} MB, the limit is {1} MB)</source>
        <translation>il file è troppo grande ({0} MB, il limite è {1} MB)</translation>
    </message>
    <message>
        <source>save only the pieces that are needed</source>
        <translation>salvare solo i pezzi che servono</translation>
    </message>
    <message>
        <source>there is no such file</source>
        <translation>questo file non c&apos;è</translation>
    </message>
    <message>
        <source>check the name</source>
        <translation>controllare il nome</translation>
    </message>
    <message>
        <source>the file may not be read</source>
        <translation>il file non si può leggere</translation>
    </message>
    <message>
        <source>check its permissions</source>
        <translation>controllarne i permessi</translation>
    </message>
    <message>
        <source>the file cannot be read ({0})</source>
        <translation>il file non si può leggere ({0})</translation>
    </message>
    <message>
        <source>check the disk</source>
        <translation>controllare il disco</translation>
    </message>
    <message>
        <source>the grade rules do not fit: {0}</source>
        <translation>le regole di sviluppo non corrispondono: {0}</translation>
    </message>
    <message>
        <source>no size was made from them</source>
        <translation>non se ne è fatta alcuna misura</translation>
    </message>
    <message>
        <source>correct the drawing or its rule file, or grade by the last (give the style its sizes)</source>
        <translation>correggere il disegno o il suo file di regole, o sviluppare secondo la forma (dare al modello le sue misure)</translation>
    </message>
    <message>
        <source>the outline would cross itself</source>
        <translation>il contorno incrocerebbe sé stesso</translation>
    </message>
    <message>
        <source>the rules&apos; x axis is taken along the first, from its start to its end ({0} deg)</source>
        <translation>l&apos;asse x delle regole è preso lungo la prima, dal suo inizio alla fine ({0}°)</translation>
    </message>
    <message>
        <source>there is no boundary on layer 1</source>
        <translation>non c&apos;è contorno sul livello 1</translation>
    </message>
    <message>
        <source>the validation curve on layer 84 is taken as the boundary</source>
        <translation>la curva di verifica sul livello 84 è presa come contorno</translation>
    </message>
    <message>
        <source>the block {0} holds {1} closed boundaries</source>
        <translation>il blocco {0} contiene {1} contorni chiusi</translation>
    </message>
    <message>
        <source>each is read as a piece</source>
        <translation>ciascuno è letto come pezzo</translation>
    </message>
    <message>
        <source>the scheme asks for one piece per block</source>
        <translation>lo schema richiede un pezzo per blocco</translation>
    </message>
    <message>
        <source>{0} gaps closed, the widest {1} mm</source>
        <translation>{0} aperture chiuse, la più larga di {1} mm</translation>
    </message>
    <message>
        <source>{0} lines of the boundary or cut-outs stay open</source>
        <translation>{0} linee del contorno o delle aperture restano aperte</translation>
    </message>
    <message>
        <source>kept as marks</source>
        <translation>tenute come segni</translation>
    </message>
    <message>
        <source>the quantity reads &quot;{0}&quot;</source>
        <translation>la quantità dice &quot;{0}&quot;</translation>
    </message>
    <message>
        <source>kept as it stands</source>
        <translation>tenuta così com&apos;è</translation>
    </message>
    <message>
        <source>there are {0} grain lines in different directions</source>
        <translation>ci sono {0} linee di drittofilo in direzioni diverse</translation>
    </message>
    <message>
        <source>the longest is proposed as pull axis</source>
        <translation>la più lunga è proposta come asse di tiro</translation>
    </message>
    <message>
        <source>confirm the pull axis</source>
        <translation>confermare l&apos;asse di tiro</translation>
    </message>
    <message>
        <source>there is no closed boundary on layer 1</source>
        <translation>non c&apos;è contorno chiuso sul livello 1</translation>
    </message>
    <message>
        <source>close the boundary in the drawing</source>
        <translation>chiudere il contorno nel disegno</translation>
    </message>
    <message>
        <source>a cut-out meets the boundary or another cut-out</source>
        <translation>un&apos;apertura incontra il contorno o un&apos;altra apertura</translation>
    </message>
    <message>
        <source>taken off the piece</source>
        <translation>tolta dal pezzo</translation>
    </message>
    <message>
        <source>layer {0} is not one of the scheme ({1} lines)</source>
        <translation>il livello {0} non è uno dello schema ({1} linee)</translation>
    </message>
    <message>
        <source>this drawing expands to {0} entities, the limit is {1}</source>
        <translation>questo disegno si espande a {0} entità, il limite è {1}</translation>
    </message>
    <message>
        <source>remove the repeated blocks, or save the pieces alone</source>
        <translation>togliere i blocchi ripetuti, o salvare solo i pezzi</translation>
    </message>
    <message>
        <source>ask for a coarser chord, or save the pieces alone</source>
        <translation>chiedere una corda più grossa, o salvare solo i pezzi</translation>
    </message>
    <message>
        <source>check that the piece is drawn as intended</source>
        <translation>controllare che il pezzo sia disegnato come si voleva</translation>
    </message>
    <message>
        <source>the rectangle on layer {0} around everything looks like a frame</source>
        <translation>il rettangolo sul livello {0} intorno a tutto sembra una cornice</translation>
    </message>
    <message>
        <source>left out, and what lies inside it read as pieces</source>
        <translation>lasciato fuori, e ciò che contiene letto come pezzi</translation>
    </message>
    <message>
        <source>for a frame give --frame drop, for a piece --frame keep</source>
        <translation>per una cornice dare --frame drop, per un pezzo --frame keep</translation>
    </message>
    <message>
        <source>state which sizes they are</source>
        <translation>dire quali misure sono</translation>
    </message>
    <message>
        <source>a cut-out touches the outline or another cut-out: no material is left between them</source>
        <translation>un&apos;apertura tocca il contorno o un&apos;altra apertura: tra i due non resta materiale</translation>
    </message>
    <message>
        <source>the cut-outs were made smaller by less than a hair&apos;s breadth</source>
        <translation>le aperture sono state ridotte di pochissimo</translation>
    </message>
    <message>
        <source>a closed line on layer {0} inside the outline on layer {1} takes {2} % of its area</source>
        <translation>una linea chiusa sul livello {0} dentro il contorno sul livello {1} ne prende il {2} % dell&apos;area</translation>
    </message>
    <message>
        <source>the file ends part-way through</source>
        <translation>il file finisce a metà</translation>
    </message>
    <message>
        <source>read up to that point</source>
        <translation>letto fin lì</translation>
    </message>
    <message>
        <source>added</source>
        <translation>aggiunto</translation>
    </message>
    <message>
        <source>this is not a DXF drawing (it has no sections)</source>
        <translation>questo non è un disegno DXF (non contiene sezioni)</translation>
    </message>
    <message>
        <source>the file is blank ({0} bytes, all of them blanks)</source>
        <translation>il file è bianco ({0} byte, solo spazi)</translation>
    </message>
    <message>
        <source>this is not a regular file</source>
        <translation>questo non è un file normale</translation>
    </message>
    <message>
        <source>this binary DXF is damaged from its first bytes</source>
        <translation>questo DXF binario è danneggiato dai primi byte</translation>
    </message>
    <message>
        <source>check that the sizes grow the right way</source>
        <translation>controllare che le misure crescano dalla parte giusta</translation>
    </message>
    <message>
        <source>check whether a cut-out is missing</source>
        <translation>controllare se manca un&apos;apertura</translation>
    </message>
    <message>
        <source>state whether it counts right and left pieces, pairs or single pieces</source>
        <translation>dire se conta pezzi destri e sinistri, paia o pezzi singoli</translation>
    </message>
    <message>
        <source>check whether a piece lacks a line</source>
        <translation>controllare se a un pezzo manca una linea</translation>
    </message>
    <message>
        <source>redraw it if so</source>
        <translation>in tal caso ridisegnarla</translation>
    </message>
    <message>
        <source>{0} ({1} placed)</source>
        <translation>{0} ({1} posti)</translation>
    </message>
    <message>
        <source>bind external references, or explode the blocks, before saving</source>
        <translation>legare i riferimenti esterni, o esplodere i blocchi, prima di salvare</translation>
    </message>
    <message>
        <source>{0} curves do not lie flat in the drawing plane</source>
        <translation>{0} curve non stanno nel piano del disegno</translation>
    </message>
    <message>
        <source>seen from above</source>
        <translation>viste dall&apos;alto</translation>
    </message>
    <message>
        <source>a tilted piece comes out too small: lay it flat in the drawing</source>
        <translation>un pezzo inclinato risulta troppo piccolo: stenderlo in piano nel disegno</translation>
    </message>
    <message>
        <source>{0} lines are drawn with a width</source>
        <translation>{0} linee sono disegnate con una larghezza</translation>
    </message>
    <message>
        <source>their middle is taken as the outline</source>
        <translation>preso come contorno il loro mezzo</translation>
    </message>
    <message>
        <source>entities on layers that are off or frozen, or hidden themselves: {0}</source>
        <translation>entità su livelli spenti o congelati, o nascoste esse stesse: {0}</translation>
    </message>
    <message>
        <source>switch the layer on in the drawing if it holds pieces</source>
        <translation>accendere il livello nel disegno se contiene pezzi</translation>
    </message>
    <message>
        <source>an outline on layer {0} is open by {1}</source>
        <translation>un contorno sul livello {0} è aperto di {1}</translation>
    </message>
    <message>
        <source>not closed, left out</source>
        <translation>non chiuso, lasciato fuori</translation>
    </message>
    <message>
        <source>close it in the drawing, or allow a wider gap (--join, now {0} mm)</source>
        <translation>chiuderlo nel disegno, o permettere un&apos;apertura maggiore (--join, ora {0} mm)</translation>
    </message>
    <message>
        <source>{0} corners overshoot by up to {1} mm</source>
        <translation>{0} angoli sporgono fino a {1} mm</translation>
    </message>
    <message>
        <source>trimmed where the lines cross</source>
        <translation>tagliati dove le linee si incrociano</translation>
    </message>
    <message>
        <source>check these corners in the drawing</source>
        <translation>controllare questi angoli nel disegno</translation>
    </message>
    <message>
        <source>check these places in the drawing</source>
        <translation>controllare questi punti nel disegno</translation>
    </message>
    <message>
        <source>check that quantity and pull axis are for the full piece</source>
        <translation>controllare che quantità e asse di tiro valgano per il pezzo intero</translation>
    </message>
    <message>
        <source>{0} closed lines around less than 1 mm2, or too thin to be cut</source>
        <translation>{0} linee chiuse intorno a meno di 1 mm2, o troppo sottili da tagliare</translation>
    </message>
    <message>
        <source>a closed line around less than 1 mm2, or too thin to be cut</source>
        <translation>una linea chiusa intorno a meno di 1 mm2, o troppo sottile da tagliare</translation>
    </message>
    <message>
        <source>the outline runs along a line and back at ({0}, {1})</source>
        <translation>il contorno vi va e torna lungo una linea in ({0}, {1})</translation>
    </message>
    <message>
        <source>give {0} or auto</source>
        <translation>dire {0} o auto</translation>
    </message>
    <message>
        <source>a {0} distance of {1} mm is not possible</source>
        <translation>una distanza {0} di {1} mm non è possibile</translation>
    </message>
    <message>
        <source>put {0}.rul beside the drawing, name it with --rules, or grade by the last</source>
        <translation>mettere {0}.rul accanto al disegno, indicarla con --rules, o sviluppare secondo la forma</translation>
    </message>
    <message>
        <source>state which unit is right (--unit)</source>
        <translation>dire quale unità è giusta (--unit)</translation>
    </message>
    <message>
        <source>{0} of the {1} markers of sheet {2} are visible, {3} are needed</source>
        <translation>si vedono {0} dei {1} segni del foglio {2}, ne servono {3}</translation>
    </message>
    <message>
        <source>photograph the whole sheet, flat, sharp and evenly lit</source>
        <translation>fotografare il foglio intero, piano, nitido e illuminato in modo uniforme</translation>
    </message>
    <message>
        <source>the visible markers lie in one part of the sheet only</source>
        <translation>i segni visti stanno in una sola parte del foglio</translation>
    </message>
    <message>
        <source>photograph the whole sheet, uncovered</source>
        <translation>fotografare il foglio intero, scoperto</translation>
    </message>
    <message>
        <source>no card stands out from the paper</source>
        <translation>nessun cartone si distingue dalla carta</translation>
    </message>
    <message>
        <source>use cards of another colour than the sheet, and light them evenly</source>
        <translation>usare cartoni di un colore diverso dal foglio, e illuminarli in modo uniforme</translation>
    </message>
    <message>
        <source>hold the camera still, focus on the cards, and use more light</source>
        <translation>tenere ferma la macchina, mettere a fuoco i cartoni, e dare più luce</translation>
    </message>
    <message>
        <source>no white paper is visible</source>
        <translation>non si vede carta bianca</translation>
    </message>
    <message>
        <source>lay the cards on the printed sheet and leave some of it free</source>
        <translation>mettere i cartoni sul foglio stampato, lasciandone libera una parte</translation>
    </message>
    <message>
        <source>lay the cards apart and photograph them again</source>
        <translation>separare i cartoni e fotografarli di nuovo</translation>
    </message>
    <message>
        <source>is not a picture that can be read</source>
        <translation>non è un&apos;immagine leggibile</translation>
    </message>
    <message>
        <source>take it at a higher resolution</source>
        <translation>riprenderla a risoluzione maggiore</translation>
    </message>
    <message>
        <source>{0} dots per inch</source>
        <translation>{0} punti per pollice</translation>
    </message>
    <message>
        <source>read from that sheet</source>
        <translation>letto da quel foglio</translation>
    </message>
    <message>
        <source>an outline on layer {0} crosses or touches itself at {1}</source>
        <translation>un contorno sul livello {0} incrocia o tocca sé stesso in {1}</translation>
    </message>
    <message>
        <source>shown as {0} parts</source>
        <translation>mostrato come {0} parti</translation>
    </message>
    <message>
        <source>shown by its outer border</source>
        <translation>mostrato con il suo bordo esterno</translation>
    </message>
    <message>
        <source>redraw the outline so that it does not cross itself</source>
        <translation>ridisegnare il contorno in modo che non incroci sé stesso</translation>
    </message>
    <message>
        <source>an outline on layer {0} crosses itself at {1}</source>
        <translation>un contorno sul livello {0} incrocia sé stesso in {1}</translation>
    </message>
    <message>
        <source>small loops of {0} mm2 in all taken off</source>
        <translation>tolti piccoli anelli per {0} mm2 in tutto</translation>
    </message>
    <message>
        <source>kept as drawn</source>
        <translation>tenuto come disegnato</translation>
    </message>
    <message>
        <source>check whether this is a half piece</source>
        <translation>controllare se questo è un mezzo pezzo</translation>
    </message>
    <message>
        <source>unfolded to the full piece ({0} -&gt; {1} mm2)</source>
        <translation>aperto nel pezzo intero ({0} -&gt; {1} mm2)</translation>
    </message>
    <message>
        <source>draw holes that are to be punched as points, or larger</source>
        <translation>disegnare i fori da punzonare come punti, o più grandi</translation>
    </message>
    <message>
        <source>{0} lines or outlines are drawn over others</source>
        <translation>{0} linee o contorni sono disegnati sopra altri</translation>
    </message>
    <message>
        <source>kept once</source>
        <translation>tenuti una volta</translation>
    </message>
    <message>
        <source>draw each piece as a closed outline in model space</source>
        <translation>disegnare ogni pezzo come contorno chiuso nello spazio modello</translation>
    </message>
    <message>
        <source>there is no unit {0}</source>
        <translation>non c&apos;è l&apos;unità {0}</translation>
    </message>
    <message>
        <source>its sample size is {0}, the drawing&apos;s {1}</source>
        <translation>la sua misura campione è {0}, quella del disegno {1}</translation>
    </message>
    <message>
        <source>name the rule file that belongs to the drawing</source>
        <translation>indicare il file di regole che appartiene al disegno</translation>
    </message>
    <message>
        <source>the drawing is damaged ({0}: {1})</source>
        <translation>il disegno è danneggiato ({0}: {1})</translation>
    </message>
    <message>
        <source>give 0.0001 to 100 mm</source>
        <translation>dare da 0,0001 a 100 mm</translation>
    </message>
    <message>
        <source>grade rules go with a pattern file of layers after ASTM D6673, which this is not</source>
        <translation>le regole di sviluppo vanno con un file di modelli a livelli secondo ASTM D6673, e questo non lo è</translation>
    </message>
    <message>
        <source>leave the rule file out</source>
        <translation>lasciar fuori il file di regole</translation>
    </message>
    <message>
        <source>sizes are graded by the last</source>
        <translation>le misure si sviluppano secondo la forma</translation>
    </message>
    <message>
        <source>no closed outline: {0}</source>
        <translation>nessun contorno chiuso: {0}</translation>
    </message>
    <message>
        <source>the drawing goes with a grade rule table, {0}</source>
        <translation>il disegno va con una tabella di regole di sviluppo, {0}</translation>
    </message>
    <message>
        <source>only the sizes drawn are read</source>
        <translation>lette solo le misure disegnate</translation>
    </message>
    <message>
        <source>the drawing asks for the grade rule table {0}, {1} holds {2}</source>
        <translation>il disegno chiede la tabella di regole {0}, {1} contiene {2}</translation>
    </message>
    <message>
        <source>sizes are made from it</source>
        <translation>le misure si fanno da essa</translation>
    </message>
    <message>
        <source>make sure that it belongs to the drawing</source>
        <translation>assicurarsi che appartenga al disegno</translation>
    </message>
    <message>
        <source>model space is empty</source>
        <translation>lo spazio modello è vuoto</translation>
    </message>
    <message>
        <source>the drawing stands on the paper sheet {0}</source>
        <translation>il disegno sta sul foglio {0}</translation>
    </message>
    <message>
        <source>make sure that the sheet is drawn 1:1, or draw the pieces in model space</source>
        <translation>assicurarsi che il foglio sia disegnato 1:1, o disegnare i pezzi nello spazio modello</translation>
    </message>
    <message>
        <source>the file defines {0} piece blocks but places none</source>
        <translation>il file definisce {0} blocchi di pezzi ma non ne pone alcuno</translation>
    </message>
    <message>
        <source>each is read as if placed at the origin</source>
        <translation>ciascuno è letto come posto nell&apos;origine</translation>
    </message>
    <message>
        <source>the whole drawing would be {0}</source>
        <translation>tutto il disegno sarebbe {0}</translation>
    </message>
    <message>
        <source>read as {0}</source>
        <translation>letto come {0}</translation>
    </message>
    <message>
        <source>keep cards off the markers</source>
        <translation>tenere i cartoni lontani dai segni</translation>
    </message>
    <message>
        <source>the markers do not fit sheet {0} (off by {1} mm)</source>
        <translation>i segni non corrispondono al foglio {0} (scarto {1} mm)</translation>
    </message>
    <message>
        <source>name the sheet that was printed, print it at 100 %, and lay it flat</source>
        <translation>indicare il foglio stampato, stamparlo al 100 % e stenderlo in piano</translation>
    </message>
    <message>
        <source>the edges are out of focus on {0} % of their length</source>
        <translation>i bordi sono sfocati sul {0} % della loro lunghezza</translation>
    </message>
    <message>
        <source>no outline could be closed</source>
        <translation>nessun contorno si è potuto chiudere</translation>
    </message>
    <message>
        <source>give a PNG, JPEG or TIFF</source>
        <translation>dare un PNG, JPEG o TIFF</translation>
    </message>
    <message>
        <source>is only {0} x {1} pixels</source>
        <translation>ha solo {0} x {1} pixel</translation>
    </message>
    <message>
        <source>give {0} to {1}</source>
        <translation>dare da {0} a {1}</translation>
    </message>
    <message>
        <source>cannot be read ({0})</source>
        <translation>non si può leggere ({0})</translation>
    </message>
    <message>
        <source>there is no sheet {0}</source>
        <translation>non c&apos;è il foglio {0}</translation>
    </message>
    <message>
        <source>take one of {0}</source>
        <translation>prendere uno di {0}</translation>
    </message>
    <message>
        <source>the mirror line has no length</source>
        <translation>la linea di specchio non ha lunghezza</translation>
    </message>
    <message>
        <source>the mirror line does not lie on the boundary</source>
        <translation>la linea di specchio non sta sul contorno</translation>
    </message>
    <message>
        <source>unfolding would make the outline cross itself</source>
        <translation>aprendolo il contorno incrocerebbe sé stesso</translation>
    </message>
    <message>
        <source>the mirror line runs through the piece, which is drawn in full</source>
        <translation>la linea di specchio attraversa il pezzo, che è disegnato intero</translation>
    </message>
    <message>
        <source>unfolding failed ({0})</source>
        <translation>l&apos;apertura non è riuscita ({0})</translation>
    </message>
    <message>
        <source>taken off the outline, kept as a mark</source>
        <translation>tolto dal contorno, tenuto come segno</translation>
    </message>
    <message>
        <source>taken off the outline, kept as a notch</source>
        <translation>tolto dal contorno, tenuto come tacca</translation>
    </message>
    <message>
        <source>no closed outline in the drawing ({0})</source>
        <translation>nessun contorno chiuso nel disegno ({0})</translation>
    </message>
    <message>
        <source>this drawing has more than {0} vertices</source>
        <translation>questo disegno ha più di {0} vertici</translation>
    </message>
    <message>
        <source>not read: {0}</source>
        <translation>non letti: {0}</translation>
    </message>
    <message>
        <source>it is empty</source>
        <translation>è vuoto</translation>
    </message>
    <message>
        <source>{0} gaps closed, the widest {1} mm, at {2}</source>
        <translation>{0} aperture chiuse, la più larga di {1} mm, in {2}</translation>
    </message>
    <message>
        <source>{0} gaps closed, the widest {1} mm, at {2} and more</source>
        <translation>{0} aperture chiuse, la più larga di {1} mm, in {2} e altrove</translation>
    </message>
    <message>
        <source>a gap of {0} mm closed at {1}</source>
        <translation>un&apos;apertura di {0} mm chiusa in {1}</translation>
    </message>
    <message>
        <source>a half piece with a mirror line</source>
        <translation>un mezzo pezzo con una linea di specchio</translation>
    </message>
    <message>
        <source>reading it ended without a result</source>
        <translation>la lettura è finita senza risultato</translation>
    </message>
    <message>
        <source>close other programs to free memory, or save the pieces alone in a smaller drawing</source>
        <translation>chiudere altri programmi per liberare memoria, o salvare solo i pezzi in un disegno più piccolo</translation>
    </message>
    <message>
        <source>it cannot be read ({0})</source>
        <translation>non si può leggere ({0})</translation>
    </message>
    <message>
        <source>check the file and the disk</source>
        <translation>controllare il file e il disco</translation>
    </message>
    <message>
        <source>it holds so many lines, or they overlap and cross so often, that reading it would take minutes</source>
        <translation>contiene tante linee, o si sovrappongono e incrociano così spesso, che leggerlo prenderebbe minuti</translation>
    </message>
    <message>
        <source>save the pieces alone, each as one closed outline</source>
        <translation>salvare solo i pezzi, ciascuno come un contorno chiuso</translation>
    </message>
    <message>
        <source>a stretch changed by hand leaves no sound outline</source>
        <translation>un tratto cambiato a mano non lascia un contorno valido</translation>
    </message>
    <message>
        <source>left out</source>
        <translation>lasciato fuori</translation>
    </message>
    <message>
        <source>the line that splits {0} from {1} crosses no backing</source>
        <translation>la linea che divide {0} da {1} non attraversa alcun rinforzo</translation>
    </message>
    <message>
        <source>left in one</source>
        <translation>lasciato intero</translation>
    </message>
    <message>
        <source>taken as given</source>
        <translation>preso come dato</translation>
    </message>
    <message>
        <source>break the edge, or bring the two values nearer to each other</source>
        <translation>spezzare il bordo, o avvicinare i due valori</translation>
    </message>
    <message>
        <source>the backings of {0} do not meet</source>
        <translation>i rinforzi di {0} non si toccano</translation>
    </message>
    <message>
        <source>left in parts</source>
        <translation>lasciato in parti</translation>
    </message>
    <message>
        <source>draw the pieces where they lie in the upper, or back them separately</source>
        <translation>disegnare i pezzi dove stanno nella tomaia, o rinforzarli uno per uno</translation>
    </message>
    <message>
        <source>an edge of {0} lies on a joined piece by {1} of its length only</source>
        <translation>un bordo di {0} sta su un pezzo unito solo per {1} della sua lunghezza</translation>
    </message>
    <message>
        <source>break the edge where the seam ends</source>
        <translation>spezzare il bordo dove finisce la cucitura</translation>
    </message>
    <message>
        <source>drawn notches or holes that lie off the backing: {0}</source>
        <translation>tacche o fori disegnati fuori dal rinforzo: {0}</translation>
    </message>
    <message>
        <source>left out on the backing</source>
        <translation>tralasciate sul rinforzo</translation>
    </message>
    <message>
        <source>move them, or put them on the upper only</source>
        <translation>spostarli, o metterli solo sulla tomaia</translation>
    </message>
    <message>
        <source>the cut line misses the piece</source>
        <translation>la linea di taglio manca il pezzo</translation>
    </message>
    <message>
        <source>draw it across the piece</source>
        <translation>disegnarla attraverso il pezzo</translation>
    </message>
    <message>
        <source>the cut line crosses itself</source>
        <translation>la linea di taglio incrocia sé stessa</translation>
    </message>
    <message>
        <source>draw it again</source>
        <translation>disegnarla di nuovo</translation>
    </message>
    <message>
        <source>the cut line does not divide the piece</source>
        <translation>la linea di taglio non divide il pezzo</translation>
    </message>
    <message>
        <source>draw it from edge to edge across the piece</source>
        <translation>disegnarla da bordo a bordo attraverso il pezzo</translation>
    </message>
    <message>
        <source>it is not clear which side of the cut line to keep</source>
        <translation>non è chiaro quale lato della linea di taglio tenere</translation>
    </message>
    <message>
        <source>click well inside the side to keep</source>
        <translation>fare clic ben dentro il lato da tenere</translation>
    </message>
    <message>
        <source>the region to back lies off the piece</source>
        <translation>la zona da rinforzare sta fuori dal pezzo</translation>
    </message>
    <message>
        <source>the region is too small for corners of {0} mm</source>
        <translation>la zona è troppo piccola per angoli di {0} mm</translation>
    </message>
    <message>
        <source>make the radius smaller</source>
        <translation>ridurre il raggio</translation>
    </message>
    <message>
        <source>the band along the edge has no width</source>
        <translation>la fascia lungo il bordo non ha larghezza</translation>
    </message>
    <message>
        <source>give it a width</source>
        <translation>indicare una larghezza</translation>
    </message>
    <message>
        <source>the band along the edge closes to a ring</source>
        <translation>la fascia lungo il bordo si chiude ad anello</translation>
    </message>
    <message>
        <source>draw it in two pieces, or end it before it meets itself</source>
        <translation>disegnarla in due parti, o terminarla prima che si incontri</translation>
    </message>
    <message>
        <source>choose both ends on one outline</source>
        <translation>scegliere i due estremi sullo stesso contorno</translation>
    </message>
    <message>
        <source>something is drawn at ring {0}, which the piece does not have</source>
        <translation>qualcosa è disegnato sull&apos;anello {0}, che il pezzo non ha</translation>
    </message>
    <message>
        <source>make the distance smaller</source>
        <translation>ridurre la distanza</translation>
    </message>
    <message>
        <source>lay fewer pairs, or let &apos;plan&apos; share the order out into lays</source>
        <translation>piazzare meno paia, o lasciare che &apos;plan&apos; divida l&apos;ordine in più piazzamenti</translation>
    </message>
    <message>
        <source>lines, regions and marks are drawn on the base size only</source>
        <translation>linee, zone e segni sono disegnati solo sulla misura base</translation>
    </message>
    <message>
        <source>carried to this drawn size: those in the open in proportion to the piece&apos;s length and width</source>
        <translation>riportati su questa misura disegnata: quelli liberi in proporzione a lunghezza e larghezza del pezzo</translation>
    </message>
    <message>
        <source>undo it where the derived outline will do</source>
        <translation>ritirarlo dove basta il contorno ricavato</translation>
    </message>
    <message>
        <source>fold line of a half pattern: the backing crosses it</source>
        <translation>linea di piega di un mezzo modello: il rinforzo la attraversa</translation>
    </message>
    <message>
        <source>undo it, or make the setback smaller if the backing may lie there</source>
        <translation>ritirarlo, o ridurre l&apos;arretramento se il rinforzo può stare lì</translation>
    </message>
    <message>
        <source>draw it again, or undo it</source>
        <translation>disegnarlo di nuovo, o ritirarlo</translation>
    </message>
    <message>
        <source>draw the line across the backing, or remove the split</source>
        <translation>disegnare la linea attraverso il rinforzo, o togliere la divisione</translation>
    </message>
    <message>
        <source>set back along the whole edge</source>
        <translation>arretrato per tutta la lunghezza</translation>
    </message>
    <message>
        <source>the region to back is not a closed outline</source>
        <translation>la zona da rinforzare non è un contorno chiuso</translation>
    </message>
    <message>
        <source>a line parallel to the outline begins on one ring and ends on another</source>
        <translation>una linea accanto al contorno comincia su un anello e finisce su un altro</translation>
    </message>
    <message>
        <source>remove it and draw it again</source>
        <translation>toglierlo e disegnarlo di nuovo</translation>
    </message>
    <message>
        <source>no line can be drawn {0} mm inside the edge</source>
        <translation>nessuna linea corre a {0} mm dal bordo</translation>
    </message>
    <message>
        <source>one lay of {0} pieces is more than can be spread at once (the maximum is {1})</source>
        <translation>un piazzamento di {0} pezzi è più di quanto si possa stendere in una volta (al massimo {1})</translation>
    </message>
    <message>
        <source>{0} pairs in one order cannot be right (the maximum is {1})</source>
        <translation>{0} paia in un ordine non possono essere giuste (al massimo {1})</translation>
    </message>
    <message>
        <source>correct it, or split the order</source>
        <translation>correggere, o dividere l&apos;ordine</translation>
    </message>
    <message>
        <source>correct the order, or add the size: stayply sizes STYLE add {0}</source>
        <translation>correggere l&apos;ordine, o aggiungere la misura: stayply sizes STYLE add {0}</translation>
    </message>
    <message>
        <source>{0} has {1} drawn on it, which would be lost</source>
        <translation>su {0} è disegnato {1}, che non seguirebbe</translation>
    </message>
    <message>
        <source>{0} shares one backing with {1}, which would be lost</source>
        <translation>{0} è rinforzato in un pezzo con {1}, che non verrebbe con esso</translation>
    </message>
    <message>
        <source>back them separately first, and together again afterwards</source>
        <translation>rinforzarli prima uno per uno, e poi di nuovo in un pezzo</translation>
    </message>
    <message>
        <source>{0} has things drawn on it, on one half or on both</source>
        <translation>su {0} è disegnato qualcosa, su una metà o su entrambe</translation>
    </message>
    <message>
        <source>fold it first and draw them then, or take them away</source>
        <translation>piegarlo prima e disegnare dopo, o togliere quanto disegnato</translation>
    </message>
    <message>
        <source>{0}: a partial backing does not reach the centre line</source>
        <translation>{0}: un rinforzo parziale non arriva alla linea di mezzeria</translation>
    </message>
    <message>
        <source>{0}: something runs along the outline from the centre line back to it</source>
        <translation>{0}: qualcosa corre lungo il contorno da mezzeria a mezzeria</translation>
    </message>
    <message>
        <source>{0}: a drawn line meets the centre line more than once</source>
        <translation>{0}: una linea disegnata incontra la mezzeria più di una volta</translation>
    </message>
    <message>
        <source>{0}: a region meets the centre line more than once</source>
        <translation>{0}: una zona incontra la mezzeria più di una volta</translation>
    </message>
    <message>
        <source>the outline would cross itself there</source>
        <translation>lì il contorno incrocerebbe sé stesso</translation>
    </message>
    <message>
        <source>move the point less far</source>
        <translation>spostare meno il punto</translation>
    </message>
    <message>
        <source>tracing it ended without a result</source>
        <translation>il rilievo è finito senza risultato</translation>
    </message>
    <message>
        <source>glare lies on a card or at its edge</source>
        <translation>c&apos;è un riflesso su un cartone o sul suo bordo</translation>
    </message>
    <message>
        <source>turn the lamp or the flash off, and take it again</source>
        <translation>spegni la lampada o il flash e rifai la foto</translation>
    </message>
    <message>
        <source>holds more than {0} million pixels</source>
        <translation>ha più di {0} milioni di pixel</translation>
    </message>
    <message>
        <source>take or scan it with fewer pixels: 300 dots per inch are enough</source>
        <translation>fai la foto o la scansione con meno pixel: 300 punti per pollice bastano</translation>
    </message>
    <message>
        <source>at {0} dots per inch the scan is {1} x {2} mm</source>
        <translation>a {0} punti per pollice la scansione misura {1} x {2} mm</translation>
    </message>
    <message>
        <source>give the resolution that it was scanned with</source>
        <translation>indica la risoluzione con cui è stata scansita</translation>
    </message>
    <message>
        <source>close other programs to free memory, or give a picture with fewer pixels</source>
        <translation>chiudere altri programmi per liberare memoria, o dare un&apos;immagine con meno pixel</translation>
    </message>
    <message>
        <source>take it away first, and draw it again afterwards</source>
        <translation>toglierlo prima, e ridisegnarlo dopo</translation>
    </message>
    <message>
        <source>{0}: a corner of {1} degrees</source>
        <translation>{0}: un angolo di {1} gradi</translation>
    </message>
    <message>
        <source>give 1 to 179</source>
        <translation>dare da 1 a 179</translation>
    </message>
    <message>
        <source>{0}: there is no cloth {1}</source>
        <translation>{0}: non esiste il tessuto {1}</translation>
    </message>
    <message>
        <source>{0}: two parts would be called {1}</source>
        <translation>{0}: due parti si chiamerebbero {1}</translation>
    </message>
    <message>
        <source>give each part its own name</source>
        <translation>dare a ogni parte il suo nome</translation>
    </message>
    <message>
        <source>{0} has no backing there</source>
        <translation>{0} non ha rinforzo in quel punto</translation>
    </message>
    <message>
        <source>choose another layer</source>
        <translation>scegliere un altro strato</translation>
    </message>
    <message>
        <source>{0}: the stretch to smooth has no length</source>
        <translation>{0}: il tratto da lisciare non ha lunghezza</translation>
    </message>
    <message>
        <source>choose two points apart</source>
        <translation>scegliere due punti distanti</translation>
    </message>
    <message>
        <source>{0}, layer {1} has no keep</source>
        <translation>{0}, strato {1}: nessun taglio o zona di questo tipo</translation>
    </message>
    <message>
        <source>look at its cuts</source>
        <translation>guardare i suoi tagli</translation>
    </message>
    <message>
        <source>{0} {1} is not there</source>
        <translation>{0} {1} non esiste</translation>
    </message>
    <message>
        <source>there are {0}</source>
        <translation>ce ne sono {0}</translation>
    </message>
    <message>
        <source>{0} has no layer {1} of backing</source>
        <translation>{0} non ha lo strato {1} di rinforzo</translation>
    </message>
    <message>
        <source>give it a layer first</source>
        <translation>dargli prima uno strato</translation>
    </message>
    <message>
        <source>{0} is joined already</source>
        <translation>{0} è già unito</translation>
    </message>
    <message>
        <source>name another piece</source>
        <translation>indicare un altro pezzo</translation>
    </message>
    <message>
        <source>{0} differs from {1} in hand or in pieces per shoe</source>
        <translation>{0} è di altro lato o di altro numero per scarpa rispetto a {1}</translation>
    </message>
    <message>
        <source>join pieces that go together</source>
        <translation>unire pezzi che vanno insieme</translation>
    </message>
    <message>
        <source>give another value</source>
        <translation>dare un altro valore</translation>
    </message>
    <message>
        <source>edit {0} is not an object</source>
        <translation>la modifica {0} non è un oggetto</translation>
    </message>
    <message>
        <source>a hole of {0} mm does not lie on the piece there</source>
        <translation>un foro di {0} mm lì non sta sul pezzo</translation>
    </message>
    <message>
        <source>the hole lies off the piece</source>
        <translation>il foro è fuori dal pezzo</translation>
    </message>
    <message>
        <source>put it inside the outline, or make it smaller</source>
        <translation>mettilo dentro il contorno, o fallo più piccolo</translation>
    </message>
    <message>
        <source>a word needs letters or figures</source>
        <translation>una scritta vuole lettere o cifre</translation>
    </message>
    <message>
        <source>type what is to be written</source>
        <translation>digita che cosa va scritto</translation>
    </message>
    <message>
        <source>a word {0} mm high does not lie on the piece there</source>
        <translation>una scritta alta {0} mm lì non sta sul pezzo</translation>
    </message>
    <message>
        <source>the line has no length</source>
        <translation>la linea non ha lunghezza</translation>
    </message>
    <message>
        <source>set its points apart</source>
        <translation>metti i punti distanti tra loro</translation>
    </message>
    <message>
        <source>the line lies off the piece</source>
        <translation>la linea è fuori dal pezzo</translation>
    </message>
    <message>
        <source>a notch of no depth</source>
        <translation>una tacca senza profondità</translation>
    </message>
    <message>
        <source>give its depth in mm</source>
        <translation>indica la profondità in mm</translation>
    </message>
    <message>
        <source>cuts {0} mm wide meet at a pitch of {1} mm</source>
        <translation>tagli larghi {0} mm si toccano con un passo di {1} mm</translation>
    </message>
    <message>
        <source>make the pitch larger or the cuts narrower</source>
        <translation>aumenta il passo o restringi i tagli</translation>
    </message>
    <message>
        <source>no cut fits on the stretch at a pitch of {0} mm</source>
        <translation>con un passo di {0} mm nessun taglio sta sul tratto</translation>
    </message>
    <message>
        <source>make the pitch smaller</source>
        <translation>riduci il passo</translation>
    </message>
    <message>
        <source>a notch {0} mm deep and {1} mm wide cuts through the piece</source>
        <translation>una tacca profonda {0} mm e larga {1} mm taglia il pezzo da parte a parte</translation>
    </message>
    <message>
        <source>make it smaller</source>
        <translation>falla più piccola</translation>
    </message>
    <message>
        <source>{0}: no piece to join it with</source>
        <translation>{0}: nessun pezzo con cui unirlo</translation>
    </message>
    <message>
        <source>{0}: an overlap of {1} mm is wider than a part</source>
        <translation>{0}: una sovrapposizione di {1} mm è più larga di una parte</translation>
    </message>
    <message>
        <source>make the overlap smaller</source>
        <translation>riduci la sovrapposizione</translation>
    </message>
    <message>
        <source>{0}: the stretch along the edge ends before it begins</source>
        <translation>{0}: il tratto lungo il bordo finisce prima di cominciare</translation>
    </message>
    <message>
        <source>give from_share less than to_share</source>
        <translation>from_share deve essere minore di to_share</translation>
    </message>
    <message>
        <source>look at the backing there</source>
        <translation>guardare lì il rinforzo</translation>
    </message>
    <message>
        <source>look at the corner</source>
        <translation>guardare l&apos;angolo</translation>
    </message>
    <message>
        <source>give a --reason to write it so</source>
        <translation>indicare --reason per scriverlo lo stesso</translation>
    </message>
    <message>
        <source>cement must reach the upper; ends 5 mm past the feather line, held by lasting</source>
        <translation>il mastice deve arrivare alla tomaia; finisce 5 mm oltre lo spigolo del fondo, trattenuto dal montaggio</translation>
    </message>
    <message>
        <source>ends 0.5 mm inside the fold line: the fold lies flat over a single layer</source>
        <translation>finisce 0.5 mm prima della piega: il ripiegato resta piatto su un solo strato</translation>
    </message>
    <message>
        <source>both layers are skived together, so the backing is flush</source>
        <translation>i due strati si scarniscono insieme, quindi il rinforzo è a filo</translation>
    </message>
    <message>
        <source>no bulk under the overlapping piece</source>
        <translation>nessuno spessore sotto il pezzo sovrapposto</translation>
    </message>
    <message>
        <source>still caught by a stitch 1.5-2 mm from the edge</source>
        <translation>ancora preso da una cucitura a 1.5-2 mm dal bordo</translation>
    </message>
    <message>
        <source>clear of the closed seam and its rubbing down</source>
        <translation>libero dalla cucitura chiusa e dalla sua spianatura</translation>
    </message>
    <message>
        <source>the cloth must not show at a cut edge</source>
        <translation>il tessuto non deve vedersi sul taglio vivo</translation>
    </message>
    <message>
        <source>edit {0}: there is no edit {1}</source>
        <translation>modifica {0}: non esiste la modifica {1}</translation>
    </message>
    <message>
        <source>setbacks that change along a short edge as if there were a corner: {0}</source>
        <translation>arretramenti che cambiano lungo un bordo corto come se ci fosse un angolo: {0}</translation>
    </message>
    <message>
        <source>{0}: a drawn line ends short of the centre line</source>
        <translation>{0}: una linea disegnata finisce prima della linea di mezzeria</translation>
    </message>
    <message>
        <source>{0} is backed in one with {1}, which has no centre edge on the same line</source>
        <translation>{0} è rinforzato in un pezzo con {1}, che non ha un bordo di mezzeria sulla stessa linea</translation>
    </message>
    <message>
        <source>mark its centre edge where the two lie against each other, or back them one by one first</source>
        <translation>segna il suo bordo di mezzeria dove i due si toccano, o rinforzali prima uno per uno</translation>
    </message>
    <message>
        <source>edits are {0}</source>
        <translation>le modifiche sono {0}</translation>
    </message>
    <message>
        <source>{0}: there is no edge that starts at vertex {1} of ring {2}</source>
        <translation>{0}: nessun bordo comincia al vertice {1} dell&apos;anello {2}</translation>
    </message>
    <message>
        <source>its edges start at {0}</source>
        <translation>i suoi bordi cominciano a {0}</translation>
    </message>
    <message>
        <source>{0}: the edge is {1} mm long</source>
        <translation>{0}: il bordo è lungo {1} mm</translation>
    </message>
    <message>
        <source>give 0 to {0} mm</source>
        <translation>dare da 0 a {0} mm</translation>
    </message>
    <message>
        <source>{0} has no edges</source>
        <translation>{0} non ha bordi</translation>
    </message>
    <message>
        <source>break its outline first</source>
        <translation>dividere prima il suo contorno</translation>
    </message>
    <message>
        <source>a line needs two points</source>
        <translation>una linea richiede due punti</translation>
    </message>
    <message>
        <source>give another</source>
        <translation>darne un altro</translation>
    </message>
    <message>
        <source>{0}: a band of no width</source>
        <translation>{0}: una fascia senza larghezza</translation>
    </message>
    <message>
        <source>give its far side more than its near side</source>
        <translation>dare al lato lontano più che al lato vicino</translation>
    </message>
    <message>
        <source>the pieces to join cannot be laid over each other</source>
        <translation>i pezzi da unire non si possono sovrapporre</translation>
    </message>
    <message>
        <source>cancelled before the first lay was found</source>
        <translation>fermato prima che si trovasse il primo piazzamento</translation>
    </message>
    <message>
        <source>give it a second</source>
        <translation>dargli un secondo</translation>
    </message>
    <message>
        <source>cancelled before every lay was found</source>
        <translation>fermato prima che si trovassero tutti i piazzamenti</translation>
    </message>
    <message>
        <source>give it more time</source>
        <translation>dargli più tempo</translation>
    </message>
    <message>
        <source>the engine&apos;s process ended without a lay ({0})</source>
        <translation>il processo del motore è finito senza un piazzamento ({0})</translation>
    </message>
    <message>
        <source>try again</source>
        <translation>riprovare</translation>
    </message>
    <message>
        <source>no split over lays was found</source>
        <translation>non si è trovata una divisione su più piazzamenti</translation>
    </message>
    <message>
        <source>allow longer lays</source>
        <translation>permettere piazzamenti più lunghi</translation>
    </message>
    <message>
        <source>a piece alone takes more than the {0} mm a lay may be long</source>
        <translation>un pezzo da solo prende più dei {0} mm che un piazzamento può essere lungo</translation>
    </message>
    <message>
        <source>the work is not a number from 1, or a time is given as well</source>
        <translation>il lavoro non è un numero da 1, o c&apos;è anche un orologio</translation>
    </message>
    <message>
        <source>give one</source>
        <translation>darne uno</translation>
    </message>
    <message>
        <source>give a demand</source>
        <translation>dare una richiesta</translation>
    </message>
    <message>
        <source>give each its own</source>
        <translation>dare a ciascuno il suo</translation>
    </message>
    <message>
        <source>the {0} is {1} mm</source>
        <translation>{0} è {1} mm</translation>
    </message>
    <message>
        <source>give 0 or more</source>
        <translation>dare 0 o più</translation>
    </message>
    <message>
        <source>its demand is {0}</source>
        <translation>la sua richiesta è {0}</translation>
    </message>
    <message>
        <source>no turn is allowed</source>
        <translation>nessuna rotazione è permessa</translation>
    </message>
    <message>
        <source>allow at least one</source>
        <translation>permetterne almeno uno</translation>
    </message>
    <message>
        <source>its outline crosses itself</source>
        <translation>il suo contorno incrocia sé stesso</translation>
    </message>
    <message>
        <source>is pinned but not asked for</source>
        <translation>è fissato ma non richiesto</translation>
    </message>
    <message>
        <source>release it</source>
        <translation>liberarlo</translation>
    </message>
    <message>
        <source>is pinned more often than asked for</source>
        <translation>è fissato più volte di quante è richiesto</translation>
    </message>
    <message>
        <source>release one</source>
        <translation>liberarne uno</translation>
    </message>
    <message>
        <source>the pinned pieces are {0}</source>
        <translation>i pezzi fissati sono {0}</translation>
    </message>
    <message>
        <source>move or release them</source>
        <translation>spostarli o liberarli</translation>
    </message>
    <message>
        <source>move pinned pieces or flaws</source>
        <translation>spostare pezzi fissati o difetti</translation>
    </message>
    <message>
        <source>ask for {0}</source>
        <translation>chiedere {0}</translation>
    </message>
    <message>
        <source>not enough memory</source>
        <translation>memoria insufficiente</translation>
    </message>
    <message>
        <source>lay fewer pieces</source>
        <translation>piazzare meno pezzi</translation>
    </message>
    <message>
        <source>the margins leave nothing of the usable width</source>
        <translation>i margini non lasciano nulla della larghezza utile</translation>
    </message>
    <message>
        <source>make the edge margin smaller</source>
        <translation>ridurre il margine ai bordi</translation>
    </message>
    <message>
        <source>is wider than the roll&apos;s {0} mm less the margins in every turn allowed</source>
        <translation>è più largo dei {0} mm del rotolo meno i margini in ogni rotazione permessa</translation>
    </message>
    <message>
        <source>use a wider roll or allow another turn</source>
        <translation>usare un rotolo più alto o permettere un&apos;altra rotazione</translation>
    </message>
    <message>
        <source>the piece is wider than the roll</source>
        <translation>il pezzo è più largo del rotolo</translation>
    </message>
    <message>
        <source>take a wider roll or turn the piece</source>
        <translation>prendere un rotolo più alto o girare il pezzo</translation>
    </message>
    <message>
        <source>no lattice was found in the time</source>
        <translation>nessun reticolo si è trovato nel tempo</translation>
    </message>
    <message>
        <source>allow more time</source>
        <translation>permettere più tempo</translation>
    </message>
    <message>
        <source>a piece needs a name</source>
        <translation>un pezzo richiede un nome</translation>
    </message>
    <message>
        <source>type one</source>
        <translation>scriverne uno</translation>
    </message>
    <message>
        <source>there is a piece called {0} already</source>
        <translation>c&apos;è già un pezzo chiamato {0}</translation>
    </message>
    <message>
        <source>choose another name</source>
        <translation>scegliere un altro nome</translation>
    </message>
    <message>
        <source>a shoe needs at least one of each piece</source>
        <translation>una scarpa richiede almeno uno di ogni pezzo</translation>
    </message>
    <message>
        <source>remove the piece instead</source>
        <translation>togliere invece il pezzo</translation>
    </message>
    <message>
        <source>enter {0} or fewer</source>
        <translation>scrivere {0} o meno</translation>
    </message>
    <message>
        <source>cloth {0}: the usable width cannot be larger than the width</source>
        <translation>tessuto {0}: la larghezza utile non può superare la larghezza</translation>
    </message>
    <message>
        <source>check both widths</source>
        <translation>controllare le due larghezze</translation>
    </message>
    <message>
        <source>there is a cloth {0} already</source>
        <translation>c&apos;è già un tessuto {0}</translation>
    </message>
    <message>
        <source>choose another id</source>
        <translation>scegliere un altro nome breve</translation>
    </message>
    <message>
        <source>cloth {0} backs {1}</source>
        <translation>il tessuto {0} rinforza {1}</translation>
    </message>
    <message>
        <source>give these pieces another cloth first</source>
        <translation>dare prima a questi pezzi un altro tessuto</translation>
    </message>
    <message>
        <source>a style needs a cloth</source>
        <translation>un modello richiede un tessuto</translation>
    </message>
    <message>
        <source>change this one instead</source>
        <translation>cambiare invece questo</translation>
    </message>
    <message>
        <source>enter another value</source>
        <translation>scrivere un altro valore</translation>
    </message>
    <message>
        <source>{0}: there is no such edge</source>
        <translation>{0}: questo bordo non c&apos;è</translation>
    </message>
    <message>
        <source>choose an edge on the board</source>
        <translation>scegliere un bordo sul tavolo</translation>
    </message>
    <message>
        <source>there is no piece called {0}</source>
        <translation>non esiste un pezzo chiamato {0}</translation>
    </message>
    <message>
        <source>choose one of the list</source>
        <translation>sceglierne uno dell&apos;elenco</translation>
    </message>
    <message>
        <source>there is no cloth {0}</source>
        <translation>non c&apos;è il tessuto {0}</translation>
    </message>
    <message>
        <source>is damaged (version is not a whole number from 1)</source>
        <translation>è danneggiato (la versione non è un numero intero da 1)</translation>
    </message>
    <message>
        <source>restore a copy</source>
        <translation>ripristinare una copia</translation>
    </message>
    <message>
        <source>was written by a newer stayply (file version {0}, this program reads up to {1})</source>
        <translation>è stato scritto da uno stayply più nuovo (versione {0}, questo programma legge fino a {1})</translation>
    </message>
    <message>
        <source>update stayply</source>
        <translation>aggiornare stayply</translation>
    </message>
    <message>
        <source>correct the file</source>
        <translation>correggere il file</translation>
    </message>
    <message>
        <source>check the file and its permissions</source>
        <translation>controllare il file e i suoi permessi</translation>
    </message>
    <message>
        <source>is damaged</source>
        <translation>è danneggiato</translation>
    </message>
    <message>
        <source>correct the field</source>
        <translation>correggere il campo</translation>
    </message>
    <message>
        <source>cannot be written ({0})</source>
        <translation>non si può scrivere ({0})</translation>
    </message>
    <message>
        <source>the old file is untouched</source>
        <translation>il file vecchio è intatto</translation>
    </message>
    <message>
        <source>choose another place</source>
        <translation>scegliere un altro posto</translation>
    </message>
    <message>
        <source>check it in the style</source>
        <translation>controllarlo nel modello</translation>
    </message>
    <message>
        <source>there is no piece in the drawing</source>
        <translation>non c&apos;è pezzo nel disegno</translation>
    </message>
    <message>
        <source>check its layers and units</source>
        <translation>controllarne livelli e unità</translation>
    </message>
    <message>
        <source>the drawing names no size</source>
        <translation>il disegno non nomina misure</translation>
    </message>
    <message>
        <source>piece {0} is not drawn in the base size {1} ({2} are)</source>
        <translation>il pezzo {0} non è disegnato nella misura base {1} (lo sono {2})</translation>
    </message>
    <message>
        <source>draw it, or choose another --base-size</source>
        <translation>disegnarlo, o scegliere un&apos;altra --base-size</translation>
    </message>
    <message>
        <source>piece {0}: the outline of size {1} crosses itself</source>
        <translation>pezzo {0}: il contorno della misura {1} incrocia sé stesso</translation>
    </message>
    <message>
        <source>the line of the partial backing is drawn on the base size only</source>
        <translation>la linea del rinforzo parziale è disegnata solo sulla misura base</translation>
    </message>
    <message>
        <source>carried to this drawn size in proportion to the piece&apos;s length and width</source>
        <translation>riportata su questa misura disegnata in proporzione a lunghezza e larghezza del pezzo</translation>
    </message>
    <message>
        <source>check it on the board</source>
        <translation>guardarla sul tavolo</translation>
    </message>
    <message>
        <source>size {0} is not drawn ({1} are), and the style is not graded</source>
        <translation>la misura {0} non è disegnata (lo sono {1}), e il modello non è sviluppato</translation>
    </message>
    <message>
        <source>draw the size, or let the style be graded from its base size</source>
        <translation>disegnare la misura, o lasciar sviluppare il modello dalla sua misura base</translation>
    </message>
    <message>
        <source>size {0} is not in the style&apos;s run</source>
        <translation>la misura {0} non è tra quelle del modello</translation>
    </message>
    <message>
        <source>sizes are {0}</source>
        <translation>le misure sono {0}</translation>
    </message>
    <message>
        <source>ring {0} has no edge</source>
        <translation>l&apos;anello {0} non ha bordi</translation>
    </message>
    <message>
        <source>mark its edges</source>
        <translation>segnarne i bordi</translation>
    </message>
    <message>
        <source>has a centre edge: it is half a pattern, and its other half is missing</source>
        <translation>ha un bordo di mezzeria: è mezzo modello, e gli manca l&apos;altra metà</translation>
    </message>
    <message>
        <source>lays and boards of the style are refused</source>
        <translation>piazzamenti e cartoni del modello sono rifiutati</translation>
    </message>
    <message>
        <source>check the name of the order</source>
        <translation>controllare il nome dell&apos;ordine</translation>
    </message>
    <message>
        <source>the order is empty</source>
        <translation>l&apos;ordine è vuoto</translation>
    </message>
    <message>
        <source>an order of several styles needs the columns style, size and pairs</source>
        <translation>un ordine di più modelli richiede le colonne style, size e pairs</translation>
    </message>
    <message>
        <source>name the columns style, size, pairs</source>
        <translation>intestare le colonne style, size, pairs</translation>
    </message>
    <message>
        <source>save the order as CSV or XLSX</source>
        <translation>salvare l&apos;ordine come CSV o XLSX</translation>
    </message>
    <message>
        <source>{0}: the pairs of size {1} must be a whole number from 0, not {2}</source>
        <translation>{0}: le paia della misura {1} devono essere un numero intero da 0, non {2}</translation>
    </message>
    <message>
        <source>correct it</source>
        <translation>correggerlo</translation>
    </message>
    <message>
        <source>join the two entries into one</source>
        <translation>unire le due voci in una</translation>
    </message>
    <message>
        <source>no pairs are ordered</source>
        <translation>non sono ordinate paia</translation>
    </message>
    <message>
        <source>--pairs: {0} is not SIZE:PAIRS</source>
        <translation>--pairs: {0} non è MISURA:PAIA</translation>
    </message>
    <message>
        <source>write 36:2,37:4</source>
        <translation>scrivere 36:2,37:4</translation>
    </message>
    <message>
        <source>{0}: there is no size</source>
        <translation>{0}: manca la misura</translation>
    </message>
    <message>
        <source>fill it in or remove the line</source>
        <translation>scriverla o togliere la riga</translation>
    </message>
    <message>
        <source>size {0} is not a size of {1} ({2})</source>
        <translation>la misura {0} non è una misura di {1} ({2})</translation>
    </message>
    <message>
        <source>correct the order, or add the size to the style</source>
        <translation>correggere l&apos;ordine, o aggiungere la misura al modello</translation>
    </message>
    <message>
        <source>line {0} is damaged ({1})</source>
        <translation>la riga {0} è danneggiata ({1})</translation>
    </message>
    <message>
        <source>save the order again</source>
        <translation>salvare di nuovo l&apos;ordine</translation>
    </message>
    <message>
        <source>save it again as XLSX or CSV</source>
        <translation>salvarlo di nuovo come XLSX o CSV</translation>
    </message>
    <message>
        <source>{0}: the total says {1}, the sizes above add up to {2}</source>
        <translation>{0}: il totale dice {1}, le misure sopra danno {2}</translation>
    </message>
    <message>
        <source>correct one of them</source>
        <translation>correggerne uno</translation>
    </message>
    <message>
        <source>nothing of {0} is cut from {1}</source>
        <translation>nulla di {0} si taglia da {1}</translation>
    </message>
    <message>
        <source>choose another --cloth</source>
        <translation>scegliere un altro --cloth</translation>
    </message>
    <message>
        <source>{0} plies cannot be cut</source>
        <translation>{0} strati non si possono tagliare</translation>
    </message>
    <message>
        <source>give a number from 1</source>
        <translation>dare un numero da 1</translation>
    </message>
    <message>
        <source>{0} plies face to face would leave a left shoe without its right</source>
        <translation>{0} strati faccia a faccia lascerebbero una scarpa sinistra senza la destra</translation>
    </message>
    <message>
        <source>take an even number of plies, or cut glue side up</source>
        <translation>prendere un numero pari di strati, o tagliare con la colla in alto</translation>
    </message>
    <message>
        <source>the tight direction of {0} lies at {1} deg: turned over, it lies the other way, and every second ply would be cut off its axis</source>
        <translation>il senso rigido di {0} sta a {1}°: girato sotto sopra sta dall&apos;altra parte, e ogni secondo strato sarebbe tagliato fuori asse</translation>
    </message>
    <message>
        <source>cut glue side up</source>
        <translation>tagliare con la colla in alto</translation>
    </message>
    <message>
        <source>the backing of {0} in size {1} vanishes</source>
        <translation>il rinforzo di {0} nella misura {1} svanisce</translation>
    </message>
    <message>
        <source>make its setbacks smaller, or give the piece no backing</source>
        <translation>ridurne gli arretramenti, o non dare rinforzo al pezzo</translation>
    </message>
    <message>
        <source>holds {0} pieces, a remnant is one</source>
        <translation>contiene {0} pezzi, uno scampolo è uno</translation>
    </message>
    <message>
        <source>draw it alone</source>
        <translation>disegnarlo da solo</translation>
    </message>
    <message>
        <source>cannot be used ({0})</source>
        <translation>non si può usare ({0})</translation>
    </message>
    <message>
        <source>was written by a newer program (version {0}, this one knows {1})</source>
        <translation>è stato scritto da un programma più nuovo (versione {0}, questo conosce la {1})</translation>
    </message>
    <message>
        <source>update the program</source>
        <translation>aggiornare il programma</translation>
    </message>
    <message>
        <source>{0} has no piece {1}</source>
        <translation>{0} non ha un pezzo {1}</translation>
    </message>
    <message>
        <source>its pieces are {0}</source>
        <translation>i suoi pezzi sono {0}</translation>
    </message>
    <message>
        <source>the sample is not complete</source>
        <translation>il campione non è completo</translation>
    </message>
    <message>
        <source>install the program again</source>
        <translation>procurarsi di nuovo il programma</translation>
    </message>
    <message>
        <source>correct or remove the file</source>
        <translation>correggere o togliere il file</translation>
    </message>
    <message>
        <source>check the folder</source>
        <translation>controllare la cartella</translation>
    </message>
    <message>
        <source>chain {0} ({1})</source>
        <translation>catena {0} ({1})</translation>
    </message>
    <message>
        <source>{0} on {1}</source>
        <translation>{0} su {1}</translation>
    </message>
    <message>
        <source>{0} in the lay</source>
        <translation>{0} nel piazzamento</translation>
    </message>
    <message>
        <source>0 {0}</source>
        <translation>0 {0}</translation>
    </message>
    <message>
        <source>90 {0}</source>
        <translation>90 {0}</translation>
    </message>
    <message>
        <source>along the roll</source>
        <translation>lungo il rotolo</translation>
    </message>
    <message>
        <source>pull axis</source>
        <translation>asse di tiro</translation>
    </message>
    <message>
        <source>across</source>
        <translation>di traverso</translation>
    </message>
    <message>
        <source>the field has no throat of {0}</source>
        <translation>il campo non ha lo scollo di {0}</translation>
    </message>
    <message>
        <source>draw its hold line</source>
        <translation>disegnarne la linea di tenuta</translation>
    </message>
    <message>
        <source>mark its pieces as drawn in assembled position</source>
        <translation>segnarne i pezzi come disegnati in posizione assemblata</translation>
    </message>
    <message>
        <source>nothing was saved</source>
        <translation>nulla è stato salvato</translation>
    </message>
    <message>
        <source>the columns of sizes and pairs cannot be recognised in {0}</source>
        <translation>le colonne di misure e paia non si riconoscono in {0}</translation>
    </message>
    <message>
        <source>an edge cannot be sewn to itself</source>
        <translation>un bordo non si può cucire a sé stesso</translation>
    </message>
    <message>
        <source>choose two edges</source>
        <translation>scegliere due bordi</translation>
    </message>
    <message>
        <source>{0} and {1} are not sewn there</source>
        <translation>{0} e {1} non sono cuciti lì</translation>
    </message>
    <message>
        <source>choose a seam of the list</source>
        <translation>scegliere una cucitura dell&apos;elenco</translation>
    </message>
    <message>
        <source>an edge of its seam with {0} is no longer there</source>
        <translation>un bordo della sua cucitura con {0} non c&apos;è più</translation>
    </message>
    <message>
        <source>the edge of {0} is sewn to {1} already</source>
        <translation>il bordo di {0} è già cucito a {1}</translation>
    </message>
    <message>
        <source>remove that seam first</source>
        <translation>togliere prima quella cucitura</translation>
    </message>
    <message>
        <source>{0} is linked to {1}</source>
        <translation>{0} è collegato a {1}</translation>
    </message>
    <message>
        <source>unlink it first</source>
        <translation>scollegarlo prima</translation>
    </message>
    <message>
        <source>{0} cannot be its own twin</source>
        <translation>{0} non può essere il proprio gemello</translation>
    </message>
    <message>
        <source>choose another piece</source>
        <translation>scegliere un altro pezzo</translation>
    </message>
    <message>
        <source>{0} is not linked to a twin</source>
        <translation>{0} non è collegato a un gemello</translation>
    </message>
    <message>
        <source>{0} has {1} holes, {2} {3}</source>
        <translation>{0} ha {1} fori, {2} {3}</translation>
    </message>
    <message>
        <source>draw the same holes in both</source>
        <translation>disegnare gli stessi fori in entrambi</translation>
    </message>
    <message>
        <source>choose the piece that is, or mirror this one to a new piece</source>
        <translation>scegliere il pezzo che lo è, o specchiare questo in un pezzo nuovo</translation>
    </message>
    <message>
        <source>a point lies out of reach</source>
        <translation>un punto sta fuori portata</translation>
    </message>
    <message>
        <source>give points in mm</source>
        <translation>dare i punti in mm</translation>
    </message>
    <message>
        <source>give the corners in their order round the piece</source>
        <translation>dare gli angoli nel loro ordine intorno al pezzo</translation>
    </message>
    <message>
        <source>a side of {0} mm</source>
        <translation>un lato di {0} mm</translation>
    </message>
    <message>
        <source>no pieces are asked for</source>
        <translation>non si chiede alcun pezzo</translation>
    </message>
    <message>
        <source>two items have the same id</source>
        <translation>due articoli hanno lo stesso nome</translation>
    </message>
    <message>
        <source>no engine is called {0}</source>
        <translation>nessun motore si chiama {0}</translation>
    </message>
    <message>
        <source>{0} of one piece in a shoe is too many</source>
        <translation>{0} di un pezzo in una scarpa sono troppi</translation>
    </message>
    <message>
        <source>is not a style file (its &quot;format&quot; is not &quot;{0}&quot;)</source>
        <translation>non è un file di modello (il suo &quot;format&quot; non è &quot;{0}&quot;)</translation>
    </message>
    <message>
        <source>is not a style file (not UTF-8 text)</source>
        <translation>non è un file di modello (non è testo UTF-8)</translation>
    </message>
    <message>
        <source>state which size is drawn: --base-size 37</source>
        <translation>dire quale misura è disegnata: --base-size 37</translation>
    </message>
    <message>
        <source>is not a text file</source>
        <translation>non è un file di testo</translation>
    </message>
    <message>
        <source>{0}: {1} pairs of size {2} cannot be right</source>
        <translation>{0}: {1} paia della misura {2} non possono essere giuste</translation>
    </message>
    <message>
        <source>{0}: size {1} appears twice</source>
        <translation>{0}: la misura {1} vi sta due volte</translation>
    </message>
    <message>
        <source>is not a readable spreadsheet ({0})</source>
        <translation>non è un foglio di calcolo leggibile ({0})</translation>
    </message>
    <message>
        <source>the revised style is not consistent: {0}</source>
        <translation>il modello rivisto non è coerente: {0}</translation>
    </message>
    <message>
        <source>state it with --remnant-unit</source>
        <translation>dirlo con --remnant-unit</translation>
    </message>
    <message>
        <source>its journal mode stays {0}, although it lies on a network drive</source>
        <translation>la sua modalità di giornale resta {0}, benché sia su un disco di rete</translation>
    </message>
    <message>
        <source>was written by another program in the meantime</source>
        <translation>è stato scritto intanto da un altro programma</translation>
    </message>
    <message>
        <source>check it and run the command again</source>
        <translation>guardarlo e dare di nuovo il comando</translation>
    </message>
    <message>
        <source>sewn to {0}: {1} mm against {2} mm, {3} mm off what is intended</source>
        <translation>cucito a {0}: {1} mm contro {2} mm, {3} mm fuori dal voluto</translation>
    </message>
    <message>
        <source>correct one of the edges, or enter the ease that is intended</source>
        <translation>correggere uno dei bordi, o scrivere la lentezza voluta</translation>
    </message>
    <message>
        <source>pair the edges again</source>
        <translation>appaiare di nuovo i bordi</translation>
    </message>
    <message>
        <source>there is nothing to do</source>
        <translation>non c&apos;è nulla da fare</translation>
    </message>
    <message>
        <source>{0} is not the mirror image of {1}: they differ by up to {2} mm</source>
        <translation>{0} non è lo speculare di {1}: si scostano fino a {2} mm</translation>
    </message>
    <message>
        <source>give one of {0} to {1} mm</source>
        <translation>indicane uno da {0} a {1} mm</translation>
    </message>
    <message>
        <source>an ease of {0} mm</source>
        <translation>un agio di {0} mm</translation>
    </message>
    <message>
        <source>give {0} mm at most</source>
        <translation>indica al massimo {0} mm</translation>
    </message>
    <message>
        <source>give at least three corners</source>
        <translation>dare almeno tre angoli</translation>
    </message>
    <message>
        <source>a ball girth of {0} mm</source>
        <translation>una calzata di {0} mm</translation>
    </message>
    <message>
        <source>the run has {0} already</source>
        <translation>le misure contengono già {0}</translation>
    </message>
    <message>
        <source>type a size that it does not have</source>
        <translation>scrivere una misura che non c&apos;è</translation>
    </message>
    <message>
        <source>{0} is the base size</source>
        <translation>{0} è la misura base</translation>
    </message>
    <message>
        <source>choose another base size first</source>
        <translation>scegliere prima un&apos;altra misura base</translation>
    </message>
    <message>
        <source>lay {0} holds pairs of size {1}</source>
        <translation>il piazzamento {0} contiene paia della misura {1}</translation>
    </message>
    <message>
        <source>take them out of the lay first</source>
        <translation>toglierle prima dal piazzamento</translation>
    </message>
    <message>
        <source>{0} is cut in the shape of size {1} in another size</source>
        <translation>{0} si taglia nella forma della misura {1} in un&apos;altra misura</translation>
    </message>
    <message>
        <source>give that size its own shape first</source>
        <translation>dare prima a quella misura la sua forma</translation>
    </message>
    <message>
        <source>not every piece is drawn in size {0}</source>
        <translation>non ogni pezzo è disegnato nella misura {0}</translation>
    </message>
    <message>
        <source>draw them in it, or choose a size that is drawn</source>
        <translation>disegnarli in essa, o scegliere una misura disegnata</translation>
    </message>
    <message>
        <source>size {0} is not one that is graded</source>
        <translation>la misura {0} non è tra quelle sviluppate</translation>
    </message>
    <message>
        <source>choose another size of the run</source>
        <translation>scegliere un&apos;altra misura della serie</translation>
    </message>
    <message>
        <source>choose another size</source>
        <translation>scegliere un&apos;altra misura</translation>
    </message>
    <message>
        <source>cut the other size as the base size instead</source>
        <translation>tagliare invece l&apos;altra misura come la misura base</translation>
    </message>
    <message>
        <source>{0} is itself cut as {1}</source>
        <translation>{0} si taglia essa stessa come {1}</translation>
    </message>
    <message>
        <source>cut {0} as {1} as well</source>
        <translation>tagliare anche {0} come {1}</translation>
    </message>
    <message>
        <source>the backing stays on the half that is folded away</source>
        <translation>il rinforzo sta sulla metà che viene piegata via</translation>
    </message>
    <message>
        <source>fold to the other half: exchange the ends</source>
        <translation>piegare sull&apos;altra metà: scambiare i capi</translation>
    </message>
    <message>
        <source>{0} is drawn in {1} sizes, and a line lies in one of them</source>
        <translation>{0} è disegnato in {1} misure, e una linea sta in una di esse</translation>
    </message>
    <message>
        <source>fold it over its axis of symmetry: give no line</source>
        <translation>piegarlo sul suo asse di simmetria: non dare linea</translation>
    </message>
    <message>
        <source>{0} is a half pattern already</source>
        <translation>{0} è già mezzo modello</translation>
    </message>
    <message>
        <source>unfold it instead</source>
        <translation>aprirlo invece</translation>
    </message>
    <message>
        <source>{0} has no centre edge</source>
        <translation>{0} non ha bordo di mezzeria</translation>
    </message>
    <message>
        <source>choose the edge along the fold, or mark it as centre</source>
        <translation>scegliere il bordo lungo la piega, o segnarlo come mezzeria</translation>
    </message>
    <message>
        <source>{0} has no axis of symmetry</source>
        <translation>{0} non è uguale dalle due parti di alcuna linea</translation>
    </message>
    <message>
        <source>give the line to fold over</source>
        <translation>dare la linea su cui piegare</translation>
    </message>
    <message>
        <source>the cut line of a partial backing does not reach the centre line</source>
        <translation>la linea di taglio di un rinforzo parziale non arriva alla mezzeria</translation>
    </message>
    <message>
        <source>draw it over the line, or unfold first and draw it then</source>
        <translation>disegnarla oltre la linea, o aprire prima e disegnarla dopo</translation>
    </message>
    <message>
        <source>the region of a partial backing does not reach the centre line</source>
        <translation>la zona di un rinforzo parziale non arriva alla mezzeria</translation>
    </message>
    <message>
        <source>its centre edge cannot be identified</source>
        <translation>il suo bordo di mezzeria non si riconosce</translation>
    </message>
    <message>
        <source>lay {0} does not belong to a run plan</source>
        <translation>il piazzamento {0} non viene da un piano</translation>
    </message>
    <message>
        <source>lay these pieces as well</source>
        <translation>piazzare anche questi pezzi</translation>
    </message>
    <message>
        <source>lay {0} has {1} gaps below the {2} mm of the house rules</source>
        <translation>il piazzamento {0} ha {1} distanze sotto i {2} mm della casa</translation>
    </message>
    <message>
        <source>unlock it, or order that size</source>
        <translation>sbloccarlo, o ordinare quella misura</translation>
    </message>
    <message>
        <source>unlock it, or give back a corrected one</source>
        <translation>sbloccarlo, o restituirne uno corretto</translation>
    </message>
    <message>
        <source>check the corners of this size</source>
        <translation>controllare gli angoli di questa misura</translation>
    </message>
    <message>
        <source>a style needs a piece</source>
        <translation>un modello richiede un pezzo</translation>
    </message>
    <message>
        <source>add another piece first</source>
        <translation>aggiungere prima un altro pezzo</translation>
    </message>
    <message>
        <source>{0} is part of the chain {1}</source>
        <translation>{0} è parte della catena {1}</translation>
    </message>
    <message>
        <source>the drawing has no piece {0}</source>
        <translation>il disegno non ha un pezzo {0}</translation>
    </message>
    <message>
        <source>the pieces are {0}</source>
        <translation>i pezzi sono {0}</translation>
    </message>
    <message>
        <source>{0} is not drawn in the base size {1} ({2} are)</source>
        <translation>{0} non è disegnato nella misura base {1} (lo sono {2})</translation>
    </message>
    <message>
        <source>draw it in the base size</source>
        <translation>disegnarlo nella misura base</translation>
    </message>
    <message>
        <source>the outline of {0} crosses itself</source>
        <translation>il contorno di {0} incrocia sé stesso</translation>
    </message>
    <message>
        <source>open a lay of the plan on the Lay desk</source>
        <translation>aprire un piazzamento del piano al banco Piazzamento</translation>
    </message>
    <message>
        <source>the plan lays {0} on {1}, this lay is on {2}</source>
        <translation>il piano mette {0} su {1}, questo piazzamento è su {2}</translation>
    </message>
    <message>
        <source>lay it on the plan&apos;s cloth</source>
        <translation>piazzarlo sul tessuto del piano</translation>
    </message>
    <message>
        <source>the plan spreads {0} {1}, this lay is {2}</source>
        <translation>il piano stende {0} {1}, questo piazzamento è {2}</translation>
    </message>
    <message>
        <source>spread it as the plan does</source>
        <translation>stenderlo come il piano</translation>
    </message>
    <message>
        <source>lay {0} is older than its pieces ({1})</source>
        <translation>il piazzamento {0} è più vecchio dei suoi pezzi ({1})</translation>
    </message>
    <message>
        <source>fill the roll again</source>
        <translation>riempire di nuovo il rotolo</translation>
    </message>
    <message>
        <source>lay {0} no longer holds what the plan needs: {1} missing</source>
        <translation>il piazzamento {0} non contiene più quello che serve al piano: mancano {1}</translation>
    </message>
    <message>
        <source>lay {0} is {1} mm long, the table of the plan has room for {2} mm</source>
        <translation>il piazzamento {0} è lungo {1} mm, il tavolo del piano ha posto per {2} mm</translation>
    </message>
    <message>
        <source>make it shorter</source>
        <translation>accorciarlo</translation>
    </message>
    <message>
        <source>move these pieces apart</source>
        <translation>allontanare questi pezzi</translation>
    </message>
    <message>
        <source>lay {0} has {1} faults</source>
        <translation>il piazzamento {0} ha {1} difetti</translation>
    </message>
    <message>
        <source>correct them first</source>
        <translation>correggerli prima</translation>
    </message>
    <message>
        <source>{0} and {1} more</source>
        <translation>{0} e altri {1}</translation>
    </message>
    <message>
        <source>the locked lay {0} holds size {1}, which is not ordered</source>
        <translation>il piazzamento bloccato {0} contiene la misura {1}, che non è ordinata</translation>
    </message>
    <message>
        <source>the locked lay {0} cannot be kept: {1}</source>
        <translation>il piazzamento bloccato {0} non si può tenere: {1}</translation>
    </message>
    <message>
        <source>a consumption needs pairs, a length and a width</source>
        <translation>per un consumo servono paia, lunghezza e altezza</translation>
    </message>
    <message>
        <source>lay some pairs first</source>
        <translation>piazzare prima qualche paio</translation>
    </message>
    <message>
        <source>correct the house rules</source>
        <translation>correggere le regole della casa</translation>
    </message>
    <message>
        <source>give pairs for at least one size</source>
        <translation>indicare le paia di almeno una misura</translation>
    </message>
    <message>
        <source>one set of size {0} takes {1} mm, the table allows {2} mm</source>
        <translation>una serie della misura {0} prende {1} mm, il tavolo ne consente {2} mm</translation>
    </message>
    <message>
        <source>take a longer table or wider cloth</source>
        <translation>usare un tavolo più lungo o un tessuto più alto</translation>
    </message>
    <message>
        <source>the plan takes {0} m, the rolls hold {1} m: {2} m short</source>
        <translation>il piano prende {0} m, i rotoli ne hanno {1} m: mancano {2} m</translation>
    </message>
    <message>
        <source>get more cloth</source>
        <translation>procurare altro tessuto</translation>
    </message>
    <message>
        <source>roll {0}: flaw from {1} m to {2} m is not on its {3} m</source>
        <translation>rotolo {0}: il difetto da {1} m a {2} m non sta nei suoi {3} m</translation>
    </message>
    <message>
        <source>measure the flaw again from the roll&apos;s start</source>
        <translation>misurare di nuovo il difetto dall&apos;inizio del rotolo</translation>
    </message>
    <message>
        <source>lay {0} takes {1} m at once, the longest stretch without a flaw is {2} m</source>
        <translation>il piazzamento {0} prende {1} m di seguito, il tratto più lungo senza difetti è di {2} m</translation>
    </message>
    <message>
        <source>get a longer roll or plan shorter lays</source>
        <translation>procurare un rotolo più lungo o pianificare piazzamenti più corti</translation>
    </message>
    <message>
        <source>cutting height and cloth thickness must be above zero</source>
        <translation>l&apos;altezza di taglio e lo spessore del tessuto devono essere maggiori di zero</translation>
    </message>
    <message>
        <source>measure them and set them</source>
        <translation>misurarli e impostarli</translation>
    </message>
    <message>
        <source>face to face needs two plies</source>
        <translation>faccia a faccia richiede due strati</translation>
    </message>
    <message>
        <source>allow at least two plies</source>
        <translation>consentire almeno due strati</translation>
    </message>
    <message>
        <source>no lay found that fits the table</source>
        <translation>nessun piazzamento trovato che stia sul tavolo</translation>
    </message>
    <message>
        <source>allow a longer table, more time or fewer sets</source>
        <translation>consentire un tavolo più lungo, più tempo o meno serie</translation>
    </message>
    <message>
        <source>no rows were found in the time</source>
        <translation>nel tempo dato non si sono trovate file</translation>
    </message>
    <message>
        <source>no straight rows of it keep the gap</source>
        <translation>nessuna fila diritta di questo pezzo mantiene la distanza</translation>
    </message>
    <message>
        <source>make the gap a tenth wider</source>
        <translation>allargare la distanza di un decimo</translation>
    </message>
    <message>
        <source>has no list of items</source>
        <translation>non ha un elenco di pezzi</translation>
    </message>
    <message>
        <source>give an open-format instance</source>
        <translation>indicare un&apos;istanza in formato aperto</translation>
    </message>
    <message>
        <source>strip_height must be more than 0</source>
        <translation>strip_height deve essere maggiore di 0</translation>
    </message>
    <message>
        <source>give items a demand</source>
        <translation>indicare quanti pezzi servono (demand)</translation>
    </message>
    <message>
        <source>is not an object</source>
        <translation>non è un oggetto JSON</translation>
    </message>
    <message>
        <source>demand must be a whole number</source>
        <translation>demand deve essere un numero intero</translation>
    </message>
    <message>
        <source>its shape is {0}, not a simple_polygon</source>
        <translation>la sua forma è {0}, non un simple_polygon</translation>
    </message>
    <message>
        <source>its outline is not simple ({0})</source>
        <translation>il suo contorno non è semplice ({0})</translation>
    </message>
    <message>
        <source>{0} must be a number</source>
        <translation>{0} deve essere un numero</translation>
    </message>
    <message>
        <source>two items have this id</source>
        <translation>due pezzi hanno questo id</translation>
    </message>
    <message>
        <source>allowed_orientations must list degrees</source>
        <translation>allowed_orientations deve elencare gradi</translation>
    </message>
    <message>
        <source>or leave it out</source>
        <translation>oppure ometterlo</translation>
    </message>
    <message>
        <source>its shape is not a list of points</source>
        <translation>la sua forma non è un elenco di punti</translation>
    </message>
    <message>
        <source>the lay does not list its items</source>
        <translation>il piazzamento non elenca i suoi pezzi</translation>
    </message>
    <message>
        <source>make it again</source>
        <translation>rifarlo</translation>
    </message>
    <message>
        <source>choose another folder</source>
        <translation>scegliere un&apos;altra cartella</translation>
    </message>
    <message>
        <source>check the path</source>
        <translation>controllare il percorso</translation>
    </message>
    <message>
        <source>is not a JSON file</source>
        <translation>non è un file JSON</translation>
    </message>
    <message>
        <source>give a lay or instance in JSON</source>
        <translation>indicare un piazzamento o un&apos;istanza in JSON</translation>
    </message>
    <message>
        <source>neither the style nor the register has a cloth {0}</source>
        <translation>né il modello né il registro hanno un tessuto {0}</translation>
    </message>
    <message>
        <source>the style has {0}</source>
        <translation>il modello ha {0}</translation>
    </message>
    <message>
        <source>{0} takes no such cloth</source>
        <translation>{0} non usa questo tessuto</translation>
    </message>
    <message>
        <source>leave out --cloth</source>
        <translation>omettere --cloth</translation>
    </message>
    <message>
        <source>try another --seed and report it</source>
        <translation>provare un altro --seed e segnalarlo</translation>
    </message>
    <message>
        <source>a roll of {0} mm has no usable width left</source>
        <translation>a un rotolo di {0} mm non resta altezza utile</translation>
    </message>
    <message>
        <source>give the whole width of the roll</source>
        <translation>indicare l&apos;altezza intera del rotolo</translation>
    </message>
    <message>
        <source>no piece to make boards of</source>
        <translation>nessun pezzo di cui fare i cartoni</translation>
    </message>
    <message>
        <source>choose sizes that the style has</source>
        <translation>scegliere misure che il modello ha</translation>
    </message>
    <message>
        <source>{0} size {1} is larger than A0</source>
        <translation>{0} misura {1} è più grande di un A0</translation>
    </message>
    <message>
        <source>use --sheet roll:1200 or --tiled</source>
        <translation>usare --sheet roll:1200 oppure --tiled</translation>
    </message>
    <message>
        <source>tiles are printed on sheets, not on &apos;{0}&apos;</source>
        <translation>i riquadri si stampano su fogli, non su &apos;{0}&apos;</translation>
    </message>
    <message>
        <source>leave out --tiled, or name a sheet</source>
        <translation>omettere --tiled o indicare un foglio</translation>
    </message>
    <message>
        <source>{0} size {1} needs {2} x {3} mm and does not fit {4}</source>
        <translation>{0} misura {1} richiede {2} x {3} mm e non sta su {4}</translation>
    </message>
    <message>
        <source>use a larger sheet, or --tiled</source>
        <translation>usare un foglio più grande oppure --tiled</translation>
    </message>
    <message>
        <source>choose another folder, or close the program that holds the file</source>
        <translation>scegliere un&apos;altra cartella o chiudere il programma che tiene aperto il file</translation>
    </message>
    <message>
        <source>a page of {0} mm is longer than PDF allows</source>
        <translation>una pagina di {0} mm è più lunga di quanto il PDF consenta</translation>
    </message>
    <message>
        <source>keep pages within {0} mm</source>
        <translation>tenere le pagine entro {0} mm</translation>
    </message>
    <message>
        <source>the lay is {0}</source>
        <translation>il piazzamento è {0}</translation>
    </message>
    <message>
        <source>lay it again, nothing was written</source>
        <translation>rifare il piazzamento, non è stato scritto nulla</translation>
    </message>
    <message>
        <source>there is no sheet &apos;{0}&apos;</source>
        <translation>non esiste un foglio &apos;{0}&apos;</translation>
    </message>
    <message>
        <source>use {0}, or roll:WIDTH in mm from 200, as roll:900</source>
        <translation>usare {0} oppure roll:ALTEZZA in mm da 200, come roll:900</translation>
    </message>
    <message>
        <source>make the ticket from a lay of this style</source>
        <translation>fare la bolla di taglio da un piazzamento di questo modello</translation>
    </message>
    <message>
        <source>no piece of these styles is backed</source>
        <translation>nessun pezzo di questi modelli è rinforzato</translation>
    </message>
    <message>
        <source>nothing is cut from {0}</source>
        <translation>da {0} non si taglia nulla</translation>
    </message>
    <message>
        <source>the cloths are {0}</source>
        <translation>i tessuti sono {0}</translation>
    </message>
    <message>
        <source>{0} and {1} mm are allowed</source>
        <translation>sono consentiti {0} e {1} mm</translation>
    </message>
    <message>
        <source>keep it in fewer plies, allow more, or plan it again</source>
        <translation>conservarlo in meno strati, consentirne di più o ripianificarlo</translation>
    </message>
    <message>
        <source>{0} has another {1}: {2} differ</source>
        <translation>{0} ha un altro {1}: differiscono {2}</translation>
    </message>
    <message>
        <source>give the two cloths different names or the same card</source>
        <translation>dare ai due tessuti nomi diversi o la stessa scheda</translation>
    </message>
    <message>
        <source>lay {0} cannot be cut in {1} plies</source>
        <translation>il piazzamento {0} non si può tagliare in {1} strati</translation>
    </message>
    <message>
        <source>give {0} from 1</source>
        <translation>indicare {0} a partire da 1</translation>
    </message>
    <message>
        <source>a loss of cloth cannot be below zero</source>
        <translation>lo sfrido non può essere minore di zero</translation>
    </message>
    <message>
        <source>the order contains no pairs</source>
        <translation>l&apos;ordine non contiene paia</translation>
    </message>
    <message>
        <source>the rolls hold {0} m for {1} m, but cut into plies they are not enough</source>
        <translation>i rotoli hanno {0} m per {1} m, ma divisi in strati non bastano</translation>
    </message>
    <message>
        <source>bring one more roll</source>
        <translation>procurare un rotolo in più</translation>
    </message>
    <message>
        <source>asks for no pieces</source>
        <translation>non chiede nessun pezzo</translation>
    </message>
    <message>
        <source>&apos;cloth list&apos; shows those of the register</source>
        <translation>&apos;cloth list&apos; elenca quelli del registro</translation>
    </message>
    <message>
        <source>lay {0} holds no pairs</source>
        <translation>il piazzamento {0} non contiene nessun paio</translation>
    </message>
    <message>
        <source>a lay to be kept has {0} of {1} mm</source>
        <translation>un piazzamento conservato ha {0} di {1} mm</translation>
    </message>
    <message>
        <source>there is no plan to keep a lay of</source>
        <translation>non c&apos;è un piano di cui conservare un piazzamento</translation>
    </message>
    <message>
        <source>plan without --keep first</source>
        <translation>pianificare prima senza --keep</translation>
    </message>
    <message>
        <source>the plan has {0} called {1}</source>
        <translation>il piano ha {0} di nome {1}</translation>
    </message>
    <message>
        <source>name one of {0}</source>
        <translation>indicarne uno tra {0}</translation>
    </message>
    <message>
        <source>the roll list has no roll of {0}</source>
        <translation>la lista dei rotoli non ha rotoli di {0}</translation>
    </message>
    <message>
        <source>enter its rolls too</source>
        <translation>inserire anche i suoi rotoli</translation>
    </message>
    <message>
        <source>has no columns roll and length_m</source>
        <translation>non ha le colonne roll e length_m</translation>
    </message>
    <message>
        <source>name the columns roll, length_m</source>
        <translation>intestare le colonne roll, length_m</translation>
    </message>
    <message>
        <source>roll {0} {1}</source>
        <translation>rotolo {0} {1}</translation>
    </message>
    <message>
        <source>the run takes {0}</source>
        <translation>la commessa usa {0}</translation>
    </message>
    <message>
        <source>fill the column cloth of the roll list</source>
        <translation>compilare la colonna cloth della lista dei rotoli</translation>
    </message>
    <message>
        <source>save it as CSV</source>
        <translation>salvarlo come CSV</translation>
    </message>
    <message>
        <source>{0}: a roll needs a name of its own and a length above zero</source>
        <translation>{0}: un rotolo richiede un nome proprio e una lunghezza maggiore di zero</translation>
    </message>
    <message>
        <source>{0}: length_m must be a number and flaws_m like 9-9.5, semicolons between them</source>
        <translation>{0}: length_m deve essere un numero e flaws_m come 9-9.5, separati da punto e virgola</translation>
    </message>
    <message>
        <source>two jobs are both called {0}{1}</source>
        <translation>due lavori si chiamano entrambi {0}{1}</translation>
    </message>
    <message>
        <source>give the styles different names</source>
        <translation>dare ai modelli nomi diversi</translation>
    </message>
    <message>
        <source>a cluster needs the optional part of the program</source>
        <translation>per un cluster serve la parte facoltativa del programma</translation>
    </message>
    <message>
        <source>install it with: pip install &apos;stayply[cluster]&apos;</source>
        <translation>installarla con: pip install &apos;stayply[cluster]&apos;</translation>
    </message>
    <message>
        <source>no scheduler answers at {0}</source>
        <translation>nessuno scheduler risponde a {0}</translation>
    </message>
    <message>
        <source>check the address and that it runs</source>
        <translation>controllare l&apos;indirizzo e che sia in funzione</translation>
    </message>
    <message>
        <source>{0} layers cannot be cut</source>
        <translation>{0} strati non si possono tagliare</translation>
    </message>
    <message>
        <source>give --layers, 2 or more face to face</source>
        <translation>indicare --layers, 2 o più faccia a faccia</translation>
    </message>
    <message>
        <source>the thickness of {0} is not known, so its layers cannot be counted</source>
        <translation>lo spessore di {0} non è noto, quindi i suoi strati non si possono contare</translation>
    </message>
    <message>
        <source>give --layers N, or enter the cloth&apos;s thickness</source>
        <translation>indicare --layers N o inserire lo spessore del tessuto</translation>
    </message>
    <message>
        <source>how many layers are cut per stroke is not known</source>
        <translation>non è noto quanti strati si tagliano per colpo</translation>
    </message>
    <message>
        <source>give --layers N, or --cutting-height MM of the die above its bed</source>
        <translation>indicare --layers N oppure --cutting-height MM della fustella sopra il suo piano</translation>
    </message>
    <message>
        <source>is a lay of {0} on {1}</source>
        <translation>è un piazzamento di {0} su {1}</translation>
    </message>
    <message>
        <source>give a lay of this style on a cloth that is pressed</source>
        <translation>indicare un piazzamento di questo modello su un tessuto tagliato alla trancia</translation>
    </message>
    <message>
        <source>has no cards</source>
        <translation>non ha schede</translation>
    </message>
    <message>
        <source>one row a cloth under the headers id, name, width_mm, ...</source>
        <translation>una riga per tessuto sotto le intestazioni id, name, width_mm, ...</translation>
    </message>
    <message>
        <source>has no readings</source>
        <translation>non ha letture</translation>
    </message>
    <message>
        <source>columns are {0}</source>
        <translation>le colonne sono {0}</translation>
    </message>
    <message>
        <source>is not a table</source>
        <translation>non è una tabella</translation>
    </message>
    <message>
        <source>this is not a lay made by this program</source>
        <translation>questo non è un piazzamento di questo programma</translation>
    </message>
    <message>
        <source>line {0}: {1} is missing</source>
        <translation>riga {0}: manca {1}</translation>
    </message>
    <message>
        <source>line {0}: more cells than headers</source>
        <translation>riga {0}: più celle che intestazioni</translation>
    </message>
    <message>
        <source>quote texts that hold the separator</source>
        <translation>mettere tra virgolette i testi che contengono il separatore</translation>
    </message>
    <message>
        <source>line {0}: {1}: usable {2} of {3} mm</source>
        <translation>riga {0}: {1}: utili {2} di {3} mm</translation>
    </message>
    <message>
        <source>usable_width_mm is the width without the selvedges</source>
        <translation>usable_width_mm è l&apos;altezza senza le cimose</translation>
    </message>
    <message>
        <source>correct the table</source>
        <translation>correggere la tabella</translation>
    </message>
    <message>
        <source>the register has no {0} {1}</source>
        <translation>il registro non ha {0} {1}</translation>
    </message>
    <message>
        <source>a {0} needs a name to be filed under</source>
        <translation>per mettere nel registro {0} serve un nome</translation>
    </message>
    <message>
        <source>give it one</source>
        <translation>dargliene uno</translation>
    </message>
    <message>
        <source>{0} was changed at {1} by {2}</source>
        <translation>{0} è stato modificato il {1} da {2}</translation>
    </message>
    <message>
        <source>look at the card as it is now, and change it again</source>
        <translation>guardare la scheda com&apos;è adesso e modificarla di nuovo</translation>
    </message>
    <message>
        <source>{0} is not in the register any more</source>
        <translation>{0} non è più nel registro</translation>
    </message>
    <message>
        <source>add it again if it is still used</source>
        <translation>aggiungerlo di nuovo se è ancora in uso</translation>
    </message>
    <message>
        <source>the card of {0} is damaged ({1})</source>
        <translation>la scheda di {0} è danneggiata ({1})</translation>
    </message>
    <message>
        <source>bring back an older revision of it</source>
        <translation>ripristinarne una revisione precedente</translation>
    </message>
    <message>
        <source>there is no run {0}</source>
        <translation>non c&apos;è una commessa {0}</translation>
    </message>
    <message>
        <source>see &apos;history&apos; for the runs there are</source>
        <translation>vedere in &apos;history&apos; le commesse presenti</translation>
    </message>
    <message>
        <source>{0} m cannot have been used</source>
        <translation>{0} m non possono essere stati consumati</translation>
    </message>
    <message>
        <source>enter metres of zero or more</source>
        <translation>inserire metri da zero in su</translation>
    </message>
    <message>
        <source>there is no run to estimate from yet</source>
        <translation>non c&apos;è ancora una commessa da cui stimare</translation>
    </message>
    <message>
        <source>plan a run, or use &apos;cost STYLE --quick&apos;, which needs none</source>
        <translation>pianificare una commessa, o usare &apos;cost STYLE --quick&apos; senza</translation>
    </message>
    <message>
        <source>run {0} has no lay {1}</source>
        <translation>la commessa {0} non ha un piazzamento {1}</translation>
    </message>
    <message>
        <source>give at least one of {0}, or a note</source>
        <translation>indicare almeno uno tra {0}, o una nota</translation>
    </message>
    <message>
        <source>the remnant&apos;s outline crosses itself</source>
        <translation>il contorno dello scampolo incrocia sé stesso</translation>
    </message>
    <message>
        <source>give a lay.json</source>
        <translation>indicare un lay.json</translation>
    </message>
    <message>
        <source>the lay has format version {0}, this program reads up to {1}</source>
        <translation>il piazzamento ha il formato {0}, questo programma legge fino al {1}</translation>
    </message>
    <message>
        <source>make the lay again</source>
        <translation>rifare il piazzamento</translation>
    </message>
    <message>
        <source>--plies {0} is not valid</source>
        <translation>--plies {0} non è valido</translation>
    </message>
    <message>
        <source>--seconds {0} is not valid</source>
        <translation>--seconds {0} non è valido</translation>
    </message>
    <message>
        <source>--seed {0} is not valid</source>
        <translation>--seed {0} non è valido</translation>
    </message>
    <message>
        <source>--width is for one cloth, the style is cut from {0}</source>
        <translation>--width vale per un solo tessuto, il modello si taglia da {0}</translation>
    </message>
    <message>
        <source>--workers {0} is not valid</source>
        <translation>--workers {0} non è valido</translation>
    </message>
    <message>
        <source>--widths: {0} is not a roll width</source>
        <translation>--widths: {0} non è un&apos;altezza di rotolo</translation>
    </message>
    <message>
        <source>--{0} {1} is not an amount of money</source>
        <translation>--{0} {1} non è un importo</translation>
    </message>
    <message>
        <source>--{0} {1} is not valid</source>
        <translation>--{0} {1} non è valido</translation>
    </message>
    <message>
        <source>--{0} {1} mm is not valid</source>
        <translation>--{0} {1} mm non è valido</translation>
    </message>
    <message>
        <source>add --cloth</source>
        <translation>aggiungere --cloth</translation>
    </message>
    <message>
        <source>choose another -o</source>
        <translation>scegliere un altro -o</translation>
    </message>
    <message>
        <source>give --plies N</source>
        <translation>indicare --plies N</translation>
    </message>
    <message>
        <source>give 0 to 100</source>
        <translation>indicare da 0 a 100</translation>
    </message>
    <message>
        <source>give 0.1 to 86400</source>
        <translation>indicare da 0,1 a 86400</translation>
    </message>
    <message>
        <source>give a --reason to write it all the same</source>
        <translation>indicare --reason per scriverlo lo stesso</translation>
    </message>
    <message>
        <source>give a number from 0</source>
        <translation>indicare un numero da 0 in su</translation>
    </message>
    <message>
        <source>hold: not judged, {0}</source>
        <translation>tenuta: non giudicata, {0}</translation>
    </message>
    <message>
        <source>hold, lay {0}: {1}</source>
        <translation>tenuta, piazzamento {0}: {1}</translation>
    </message>
    <message>
        <source>how many plies may be cut at once is not known</source>
        <translation>non si sa quanti strati si possono tagliare insieme</translation>
    </message>
    <message>
        <source>is a file, not a folder</source>
        <translation>è un file, non una cartella</translation>
    </message>
    <message>
        <source>leave out --each or --rolls</source>
        <translation>togliere --each o --rolls</translation>
    </message>
    <message>
        <source>locked lays are of one style</source>
        <translation>i piazzamenti bloccati sono di un solo modello</translation>
    </message>
    <message>
        <source>may not be written to</source>
        <translation>non vi si può scrivere</translation>
    </message>
    <message>
        <source>name it OUT.dxf</source>
        <translation>chiamarlo OUT.dxf</translation>
    </message>
    <message>
        <source>no order given: every size counts as one pair (--pairs or --run weights them)</source>
        <translation>nessun ordine indicato: ogni misura conta come un paio (--pairs o --run per pesarle)</translation>
    </message>
    <message>
        <source>no order is given</source>
        <translation>nessun ordine indicato</translation>
    </message>
    <message>
        <source>no piece of this style is backed</source>
        <translation>nessun pezzo di questo modello ha il rinforzo</translation>
    </message>
    <message>
        <source>nothing else is lost</source>
        <translation>null&apos;altro è perso</translation>
    </message>
    <message>
        <source>plan it by itself, or leave out --locked</source>
        <translation>pianificarlo da solo, o togliere --locked</translation>
    </message>
    <message>
        <source>rename one of them</source>
        <translation>rinominare uno dei due</translation>
    </message>
    <message>
        <source>rolls are shared out in one plan</source>
        <translation>i rotoli si ripartiscono in un solo piano</translation>
    </message>
    <message>
        <source>round {0}: choosing lays</source>
        <translation>passata {0}: scelta dei piazzamenti</translation>
    </message>
    <message>
        <source>round {0}: nesting a lay with sets of pieces: {1}</source>
        <translation>passata {0}: piazzamento con serie di pezzi: {1}</translation>
    </message>
    <message>
        <source>improving the lay with sets of pieces: {0}</source>
        <translation>miglioramento del piazzamento con serie di pezzi: {0}</translation>
    </message>
    <message>
        <source>the backing is written as DXF</source>
        <translation>il rinforzo si scrive come DXF</translation>
    </message>
    <message>
        <source>the plan was not written: a lay breaks a hold limit</source>
        <translation>il piano non è stato scritto: un piazzamento supera un limite di tenuta</translation>
    </message>
    <message>
        <source>the work goes on without it</source>
        <translation>il lavoro continua senza</translation>
    </message>
    <message>
        <source>two styles have the same name</source>
        <translation>due modelli hanno lo stesso nome</translation>
    </message>
    <message>
        <source>write 1200,1400 or 42in,44in</source>
        <translation>scrivere 1200,1400 o 42in,44in</translation>
    </message>
    <message>
        <source>write it like 2.50</source>
        <translation>scriverlo come 2.50</translation>
    </message>
    <message>
        <source>write the styles&apos; names as in their files</source>
        <translation>scrivere i nomi dei modelli come nei loro file</translation>
    </message>
    <message>
        <source>{0} is not a price</source>
        <translation>{0} non è un prezzo</translation>
    </message>
    <message>
        <source>{0} is none of the styles given ({1})</source>
        <translation>{0} non è fra i modelli indicati ({1})</translation>
    </message>
    <message>
        <source>{0}: kept lays could not be read and were set aside as {1}</source>
        <translation>{0}: i piazzamenti conservati non si leggono e sono stati messi da parte come {1}</translation>
    </message>
    <message>
        <source>{0}: lays cannot be kept there</source>
        <translation>{0}: i piazzamenti non si possono conservare lì</translation>
    </message>
    <message>
        <source>{0}: setting out {1} in one stack</source>
        <translation>{0}: disposizione in una sola pila, {1}</translation>
    </message>
    <message>
        <source>going on from the {0}</source>
        <translation>si continua dal {0}</translation>
    </message>
    <message>
        <source>{0} was not written: backings that vanished: {1}</source>
        <translation>{0} non è stato scritto: rinforzi scomparsi: {1}</translation>
    </message>
    <message>
        <source>the lay is not kept for the next time: {0}</source>
        <translation>il piazzamento non è conservato per la prossima volta: {0}</translation>
    </message>
    <message>
        <source>kept lay of {0}</source>
        <translation>piazzamento conservato del {0}</translation>
    </message>
    <message>
        <source>the run is not entered in the history: {0}</source>
        <translation>la produzione non è registrata nello storico: {0}</translation>
    </message>
    <message>
        <source>the history cannot be read: {0}</source>
        <translation>lo storico non si può leggere: {0}</translation>
    </message>
    <message>
        <source>{0} (and {1} more alike)</source>
        <translation>{0} (e altri {1} uguali)</translation>
    </message>
    <message>
        <source>warning</source>
        <translation>avviso</translation>
    </message>
    <message>
        <source>question</source>
        <translation>domanda</translation>
    </message>
    <message>
        <source>error</source>
        <translation>errore</translation>
    </message>
</context>
<context>
    <name>Cost</name>
    <message>
        <source>Cloth</source>
        <translation>Tessuto</translation>
    </message>
    <message>
        <source>Order</source>
        <translation>Ordine</translation>
    </message>
    <message>
        <source>planning the run</source>
        <translation>pianificazione della commessa</translation>
    </message>
    <message>
        <source>working out the sensitivity of the cost</source>
        <translation>calcolo della sensibilità del costo</translation>
    </message>
    <message>
        <source>comparing cloths</source>
        <translation>confronto dei tessuti</translation>
    </message>
    <message>
        <source>comparing roll widths</source>
        <translation>confronto delle altezze</translation>
    </message>
    <message>
        <source>{0} could not be costed: {1}</source>
        <translation>{0}: impossibile calcolare il costo: {1}</translation>
    </message>
    <message>
        <source>Stopped; what has been costed is kept</source>
        <translation>Fermato; resta ciò che è già calcolato</translation>
    </message>
    <message>
        <source>Finished; every lay was verified</source>
        <translation>Finito; ogni piazzamento è verificato</translation>
    </message>
    <message>
        <source>Fabric per pair</source>
        <translation>Tessuto per paio</translation>
    </message>
    <message>
        <source>nothing has been costed yet</source>
        <translation>non è ancora stato calcolato nulla</translation>
    </message>
    <message>
        <source>compare roll widths first (F9)</source>
        <translation>confrontare prima le altezze del rotolo (F9)</translation>
    </message>
    <message>
        <source>The plan, its papers and lays are written to {0}</source>
        <translation>Il piano, i suoi documenti e i piazzamenti sono scritti in {0}</translation>
    </message>
    <message>
        <source>setting out the dies</source>
        <translation>si dispongono le fustelle</translation>
    </message>
    <message>
        <source>The order has no pairs: type some, or open an order</source>
        <translation>L&apos;ordine non ha paia: scriverne, o aprire un ordine</translation>
    </message>
    <message>
        <source>No cloth is ticked</source>
        <translation>Nessun tessuto è spuntato</translation>
    </message>
    <message>
        <source>No roll width is ticked</source>
        <translation>Nessuna altezza è spuntata</translation>
    </message>
    <message>
        <source>{0} per pair</source>
        <translation>{0} al paio</translation>
    </message>
    <message>
        <source>as planned: {0} per pair</source>
        <translation>come pianificato {0} al paio</translation>
    </message>
    <message>
        <source>Compare cloths to see what a pair costs in each, and whether it holds (F9)</source>
        <translation>Confrontare i tessuti per vedere quanto costa un paio con ognuno, e se tiene (F9)</translation>
    </message>
    <message>
        <source>The trade&apos;s quick estimate: a piece and the same turned by 180° as close as they will go; half of the parallelogram that repeats is what one piece takes</source>
        <translation>La stima rapida del mestiere: un pezzo e lo stesso girato di 180° il più vicino possibile; metà del parallelogramma che si ripete è quanto prende un pezzo</translation>
    </message>
    <message>
        <source>See how gap, end loss, plies and order affect the cost (F9)</source>
        <translation>Vedere come distanza, perdita ai capi, strati e ordine incidono sul costo (F9)</translation>
    </message>
    <message>
        <source>By size</source>
        <translation>Per misura</translation>
    </message>
    <message>
        <source>By size, {0}</source>
        <translation>Per misura, {0}</translation>
    </message>
    <message>
        <source>the nested lay takes {0} times the quick estimate</source>
        <translation>il piazzamento prende {0} volte la stima rapida</translation>
    </message>
    <message>
        <source>working out the quick estimate …</source>
        <translation>calcolo della stima rapida …</translation>
    </message>
    <message>
        <source>quick estimate, before any lay; the cloth of earlier runs was {1} times as much (runs: {0})</source>
        <translation>stima rapida, prima di ogni piazzamento; il tessuto delle commesse precedenti è stato {1} volte tanto (commesse: {0})</translation>
    </message>
    <message>
        <source>quick estimate, before any lay; no run has shown yet how good it is</source>
        <translation>stima rapida, prima di ogni piazzamento; nessuna commessa ha ancora mostrato quanto vale</translation>
    </message>
    <message>
        <source>{0} pairs</source>
        <translation>{0} paia</translation>
    </message>
    <message>
        <source>Open an order</source>
        <translation>Apri un ordine</translation>
    </message>
    <message>
        <source>Orders (*.csv *.xlsx *.txt)</source>
        <translation>Ordini (*.csv *.xlsx *.txt)</translation>
    </message>
    <message>
        <source>Both tables are on the clipboard</source>
        <translation>Le due tabelle sono negli appunti</translation>
    </message>
    <message>
        <source>Export into a folder</source>
        <translation>Esporta in una cartella</translation>
    </message>
    <message>
        <source>Written: {0}</source>
        <translation>Scritto: {0}</translation>
    </message>
    <message>
        <source>Keep</source>
        <translation>Tieni</translation>
    </message>
    <message>
        <source>Plies</source>
        <translation>Strati</translation>
    </message>
    <message>
        <source>Pairs per size in a ply</source>
        <translation>Paia per misura in uno strato</translation>
    </message>
    <message>
        <source>Length</source>
        <translation>Lunghezza</translation>
    </message>
    <message>
        <source>Laid by hand on the Lay desk and given back: it stays. Untick to release it.</source>
        <translation>Piazzato a mano al banco Piazzamento e restituito: resta. Togliere la spunta per liberarlo.</translation>
    </message>
    <message>
        <source>Yield</source>
        <translation>Resa</translation>
    </message>
    <message>
        <source>Lays of the plan</source>
        <translation>Piazzamenti del piano</translation>
    </message>
    <message>
        <source>Table length</source>
        <translation>Lunghezza del tavolo</translation>
    </message>
    <message>
        <source>Maximum plies</source>
        <translation>Strati massimi</translation>
    </message>
    <message>
        <source>Set-up cost per lay</source>
        <translation>Preparazione, a piazzamento</translation>
    </message>
    <message>
        <source>Spreading cost per ply-yard</source>
        <translation>Stesura, alla iarda di strato</translation>
    </message>
    <message>
        <source>Spreading cost per ply-metre</source>
        <translation>Stesura, al metro di strato</translation>
    </message>
    <message>
        <source>Cutting cost per lay-yard</source>
        <translation>Taglio, alla iarda di piazz.</translation>
    </message>
    <message>
        <source>Cutting cost per lay-metre</source>
        <translation>Taglio, al metro di piazzamento</translation>
    </message>
    <message>
        <source>Seconds for the plan</source>
        <translation>Secondi per il piano</translation>
    </message>
    <message>
        <source>Limits and rates</source>
        <translation>Limiti e tariffe</translation>
    </message>
    <message>
        <source>Lays</source>
        <translation>Piazzamenti</translation>
    </message>
    <message>
        <source>Enter the length of the cutting table first</source>
        <translation>Inserire prima la lunghezza del tavolo da taglio</translation>
    </message>
    <message>
        <source>Enter how many plies may be cut at once</source>
        <translation>Inserire quanti strati si possono tagliare insieme</translation>
    </message>
    <message>
        <source>Run plan</source>
        <translation>Piano della commessa</translation>
    </message>
    <message>
        <source>Cut tickets of the run</source>
        <translation>Bolle di taglio della commessa</translation>
    </message>
    <message>
        <source>Stopping; the best plan so far is kept</source>
        <translation>Arresto; resta il miglior piano trovato finora</translation>
    </message>
    <message>
        <source>The plan is ready; every lay was verified</source>
        <translation>Il piano è pronto; ogni piazzamento è verificato</translation>
    </message>
    <message>
        <source>{0} of cloth; no plan takes less than {1}</source>
        <translation>{0} di tessuto; nessun piano ne usa meno di {1}</translation>
    </message>
    <message>
        <source>{0} {1} in total, {2} per pair</source>
        <translation>{0} {1} in tutto, {2} al paio</translation>
    </message>
    <message>
        <source>Plan again to fit the rest round the lays that are kept</source>
        <translation>Pianificare di nuovo per adattare il resto ai piazzamenti tenuti</translation>
    </message>
    <message>
        <source>Stop</source>
        <translation>Ferma</translation>
    </message>
    <message>
        <source>The plan is costed at the prices before: plan again</source>
        <translation>Il piano è calcolato con i prezzi di prima: pianificare di nuovo</translation>
    </message>
    <message>
        <source>The plan is the one that holds these lays</source>
        <translation>Il piano è quello che contiene questi piazzamenti</translation>
    </message>
    <message>
        <source>The lay is locked, but of an earlier plan: plan again to fit the rest round it</source>
        <translation>Il piazzamento è bloccato, ma viene da un piano precedente: pianificare di nuovo per adattare il resto</translation>
    </message>
    <message>
        <source>{0} pairs ordered, {1} cut</source>
        <translation>{0} paia ordinate, {1} tagliate</translation>
    </message>
    <message>
        <source>Size</source>
        <translation>Misura</translation>
    </message>
    <message>
        <source>Pairs</source>
        <translation>Paia</translation>
    </message>
    <message>
        <source>Pairs ordered by size</source>
        <translation>Paia ordinate per misura</translation>
    </message>
    <message>
        <source>Roll width</source>
        <translation>Altezza del rotolo</translation>
    </message>
    <message>
        <source>Price per metre</source>
        <translation>Prezzo al metro</translation>
    </message>
    <message>
        <source>Price per yard</source>
        <translation>Prezzo alla iarda</translation>
    </message>
    <message>
        <source>Roll widths to compare</source>
        <translation>Altezze da confrontare</translation>
    </message>
    <message>
        <source>Cloths to compare</source>
        <translation>Tessuti da confrontare</translation>
    </message>
    <message>
        <source>Usable</source>
        <translation>Utile</translation>
    </message>
    <message>
        <source>Utilisation</source>
        <translation>Sfruttam.</translation>
    </message>
    <message>
        <source>holds</source>
        <translation>tiene</translation>
    </message>
    <message>
        <source>breaks: {0}</source>
        <translation>non tiene: {0}</translation>
    </message>
    <message>
        <source>not judged</source>
        <translation>non giudicato</translation>
    </message>
    <message>
        <source>Results by roll width</source>
        <translation>Risultati per altezza</translation>
    </message>
    <message>
        <source>Hold</source>
        <translation>Tenuta</translation>
    </message>
    <message>
        <source>Results by cloth</source>
        <translation>Risultati per tessuto</translation>
    </message>
    <message>
        <source>Area of the pieces alone</source>
        <translation>Area dei soli pezzi</translation>
    </message>
    <message>
        <source>Cost per pair</source>
        <translation>Costo al paio</translation>
    </message>
    <message>
        <source>Lay length</source>
        <translation>Lungh. piazz.</translation>
    </message>
    <message>
        <source>In brackets: the points that a minute of search is likely to add, and how far that scatters (docs/benchmarks.md). Differences within the scatter are no difference</source>
        <translation>Tra parentesi: i punti che un minuto di ricerca aggiungerà probabilmente, e quanto variano (docs/benchmarks.md). Differenze entro questa variazione non sono differenze</translation>
    </message>
    <message>
        <source>no difference</source>
        <translation>nessuna differenza</translation>
    </message>
    <message>
        <source>a trial must decide</source>
        <translation>lo dirà una prova</translation>
    </message>
    <message>
        <source>Each piece in its own closest rows, without margins and ends</source>
        <translation>Ogni pezzo nelle sue file più strette, senza margini né capi</translation>
    </message>
    <message>
        <source>The lay as nested, without ends of plies and selvedges</source>
        <translation>Il piazzamento com&apos;è, senza capi degli strati né cimose</translation>
    </message>
    <message>
        <source>All cloth paid for: ends, selvedges, splices and rejects too</source>
        <translation>Tutto il tessuto pagato: anche capi, cimose, giunte e scarti</translation>
    </message>
    <message>
        <source>Net {0}</source>
        <translation>Netto {0}</translation>
    </message>
    <message>
        <source>Quick {0}</source>
        <translation>Rapida {0}</translation>
    </message>
    <message>
        <source>Lay {0}</source>
        <translation>Piazz. {0}</translation>
    </message>
    <message>
        <source>Gross {0}</source>
        <translation>Lordo {0}</translation>
    </message>
    <message>
        <source>All pairs</source>
        <translation>Tutte le paia</translation>
    </message>
    <message>
        <source>Sensitivity of the cost per pair</source>
        <translation>Sensibilità del costo al paio</translation>
    </message>
    <message>
        <source>What is varied</source>
        <translation>Che cosa varia</translation>
    </message>
    <message>
        <source>gap {0}</source>
        <translation>distanza {0}</translation>
    </message>
    <message>
        <source>end loss {0}</source>
        <translation>perdita ai capi {0}</translation>
    </message>
    <message>
        <source>plies × pairs: {0} × {1} = {2}</source>
        <translation>strati × paia: {0} × {1} = {2}</translation>
    </message>
    <message>
        <source>pairs ordered: {0}</source>
        <translation>paia ordinate: {0}</translation>
    </message>
    <message>
        <source>Utilisation: net area of the pieces / all cloth paid for (ends, selvedges and rejects too)</source>
        <translation>Sfruttamento: area netta dei pezzi / tutto il tessuto pagato (anche capi, cimose e scarti)</translation>
    </message>
    <message>
        <source>Change</source>
        <translation>Differenza</translation>
    </message>
    <message>
        <source>as costed</source>
        <translation>com&apos;è</translation>
    </message>
    <message>
        <source>Fabric per pair by size</source>
        <translation>Tessuto per paio e misura</translation>
    </message>
    <message>
        <source>average</source>
        <translation>media</translation>
    </message>
    <message>
        <source>Length and plies of every lay</source>
        <translation>Lunghezza e strati di ogni piazzamento</translation>
    </message>
    <message>
        <source>Drag a bar down or up for more or fewer plies; its lay is then kept</source>
        <translation>Trascinare una barra in giù o in su per più o meno strati; il piazzamento resta poi fisso</translation>
    </message>
    <message>
        <source>Plan the run to see its lays</source>
        <translation>Pianificare la commessa per vederne i piazzamenti</translation>
    </message>
    <message>
        <source>{0}, 1 ply</source>
        <translation>{0}, 1 strato</translation>
    </message>
    <message>
        <source>{0}, {1} plies</source>
        <translation>{0}, {1} strati</translation>
    </message>
    <message>
        <source>Picture of the selected lay</source>
        <translation>Immagine del piazzamento selezionato</translation>
    </message>
    <message>
        <source>pieces</source>
        <translation>pezzi</translation>
    </message>
    <message>
        <source>between pieces</source>
        <translation>tra i pezzi</translation>
    </message>
    <message>
        <source>selvedges</source>
        <translation>cimose</translation>
    </message>
    <message>
        <source>ends of plies</source>
        <translation>capi degli strati</translation>
    </message>
    <message>
        <source>ends of rolls</source>
        <translation>capi dei rotoli</translation>
    </message>
    <message>
        <source>splices</source>
        <translation>giunte</translation>
    </message>
    <message>
        <source>rejects</source>
        <translation>scarti</translation>
    </message>
    <message>
        <source>Charts of cost and of where the cloth goes</source>
        <translation>Grafici del costo e di dove va il tessuto</translation>
    </message>
    <message>
        <source>Nesting several lays, one after another</source>
        <translation>Calcolo di più piazzamenti, uno dopo l&apos;altro</translation>
    </message>
    <message>
        <source>Cloth of a pair, {0}</source>
        <translation>Tessuto di un paio, {0}</translation>
    </message>
    <message>
        <source>cheapest that holds</source>
        <translation>il più economico che tiene</translation>
    </message>
    <message>
        <source>cheapest</source>
        <translation>il meno caro</translation>
    </message>
    <message>
        <source>Compare roll widths to see what a pair costs on each (F9)</source>
        <translation>Confrontare le altezze per vedere quanto costa un paio su ognuna (F9)</translation>
    </message>
    <message>
        <source>Cost of a pair, {0}</source>
        <translation>Costo di un paio, {0}</translation>
    </message>
    <message>
        <source>Where the cloth goes</source>
        <translation>Dove va il tessuto</translation>
    </message>
    <message>
        <source>Charts of the sensitivity of the cost per pair</source>
        <translation>Grafici della sensibilità del costo al paio</translation>
    </message>
    <message>
        <source>Gap between pieces, {0}</source>
        <translation>Distanza tra i pezzi, {0}</translation>
    </message>
    <message>
        <source>End loss at each end of a ply, {0}</source>
        <translation>Perdita a ogni capo di uno strato, {0}</translation>
    </message>
    <message>
        <source>Plies for the order</source>
        <translation>Strati per l&apos;ordine</translation>
    </message>
    <message>
        <source>Pairs ordered</source>
        <translation>Paia ordinate</translation>
    </message>
    <message>
        <source>the lays no longer meet the order</source>
        <translation>i piazzamenti non coprono più l&apos;ordine</translation>
    </message>
    <message>
        <source>plan again first</source>
        <translation>pianificare prima di nuovo</translation>
    </message>
    <message>
        <source>nothing is planned yet</source>
        <translation>non c&apos;è ancora un piano</translation>
    </message>
    <message>
        <source>plan the run first</source>
        <translation>pianificare prima la commessa</translation>
    </message>
    <message>
        <source>Face up, a die for each hand</source>
        <translation>Colla in alto, una fustella per mano</translation>
    </message>
    <message>
        <source>Face to face, one die for both hands</source>
        <translation>Faccia a faccia, una fustella per le due mani</translation>
    </message>
    <message>
        <source>Glue up for one hand, glue down for the other, one die</source>
        <translation>Colla sopra per una mano, colla sotto per l&apos;altra, una fustella</translation>
    </message>
    <message>
        <source>Press cutting</source>
        <translation>Taglio alla trancia</translation>
    </message>
    <message>
        <source>Dies, strokes and rows for this order</source>
        <translation>Fustelle, colpi e file per questo ordine</translation>
    </message>
    <message>
        <source>Layers cut per stroke</source>
        <translation>Strati tagliati per colpo</translation>
    </message>
    <message>
        <source>Cutting height of the die</source>
        <translation>Altezza di taglio della fustella</translation>
    </message>
    <message>
        <source>Instead of the layers: as many as lie under it, by the thickness of the cloth</source>
        <translation>Al posto degli strati: quanti ne stanno sotto, secondo lo spessore del tessuto</translation>
    </message>
    <message>
        <source>Gap between cuts</source>
        <translation>Distanza tra i tagli</translation>
    </message>
    <message>
        <source>The web that stays between two cuts; empty: the house rule</source>
        <translation>La striscia che resta tra due tagli; vuoto: la regola della casa</translation>
    </message>
    <message>
        <source>Give the layers or the height, not both.</source>
        <translation>Indicare gli strati oppure l’altezza, non entrambi.</translation>
    </message>
    <message>
        <source>How many layers a die may cut: see the die maker&apos;s and the press maker&apos;s sheets.</source>
        <translation>Quanti strati può tagliare una fustella: vedere le schede del fustellificio e del costruttore della trancia.</translation>
    </message>
    <message>
        <source>Cancel</source>
        <translation>Annulla</translation>
    </message>
    <message>
        <source>How the layers lie</source>
        <translation>Come giacciono gli strati</translation>
    </message>
    <message>
        <source>Write the press list…</source>
        <translation>Scrivi la lista per la trancia…</translation>
    </message>
    <message>
        <source>Press cutting stopped; nothing was written</source>
        <translation>Taglio alla trancia fermato; non è stato scritto nulla</translation>
    </message>
    <message>
        <source>Press list written: dies {0}, strokes {1}</source>
        <translation>Lista per la trancia scritta: fustelle {0}, colpi {1}</translation>
    </message>
    <message>
        <source>{0}, yield {1}</source>
        <translation>{0}, resa {1}</translation>
    </message>
    <message>
        <source>best so far {0}, yield {1}</source>
        <translation>migliore finora {0}, resa {1}</translation>
    </message>
    <message>
        <source>{0} s, about {1} s expected</source>
        <translation>{0} s, circa {1} s previsti</translation>
    </message>
    <message>
        <source>{0} s</source>
        <translation>{0} s</translation>
    </message>
    <message>
        <source>Seconds per lay</source>
        <translation>Secondi per piazzamento</translation>
    </message>
    <message>
        <source>How long to search for each lay</source>
        <translation>Per quanto tempo si cerca ogni piazzamento</translation>
    </message>
    <message>
        <source>Yield: net area of the pieces / (usable width x lay length)</source>
        <translation>Resa: area netta dei pezzi / (altezza utile x lunghezza del piazzamento)</translation>
    </message>
    <message>
        <source>Locked by hand: {0}</source>
        <translation>Bloccati a mano: {0}</translation>
    </message>
    <message>
        <source>run {0}</source>
        <translation>commessa {0}</translation>
    </message>
</context>
<context>
    <name>CostAction</name>
    <message>
        <source>Stop</source>
        <translation>Ferma</translation>
    </message>
    <message>
        <source>Nest and cost</source>
        <translation>Piazza e calcola</translation>
    </message>
    <message>
        <source>Nest the lays of this page, one after another, and work out what a pair takes</source>
        <translation>Dispone i piazzamenti di questa pagina, uno dopo l&apos;altro, e calcola quanto prende un paio</translation>
    </message>
    <message>
        <source>What has been costed so far is kept</source>
        <translation>Resta ciò che è già calcolato</translation>
    </message>
    <message>
        <source>Plan the run</source>
        <translation>Pianifica la commessa</translation>
    </message>
    <message>
        <source>Lays and plies for the order; lays that are kept stay</source>
        <translation>Piazzamenti e strati per l&apos;ordine; quelli tenuti restano</translation>
    </message>
    <message>
        <source>Open on the Lay desk</source>
        <translation>Apri al banco Piazzamento</translation>
    </message>
    <message>
        <source>The selected lay of the plan, to be worked on by hand and given back to the plan</source>
        <translation>Il piazzamento scelto del piano, da lavorare a mano e restituire al piano</translation>
    </message>
    <message>
        <source>Release locked lays</source>
        <translation>Libera i piazzamenti bloccati</translation>
    </message>
    <message>
        <source>Lays given back by hand no longer bind the plan; undo locks them again</source>
        <translation>I piazzamenti restituiti a mano non vincolano più il piano; annulla li blocca di nuovo</translation>
    </message>
    <message>
        <source>Export the plan…</source>
        <translation>Esporta il piano…</translation>
    </message>
    <message>
        <source>Run plan, cut tickets and every lay</source>
        <translation>Piano della commessa, bolle di taglio e ogni piazzamento</translation>
    </message>
    <message>
        <source>Press cutting…</source>
        <translation>Taglio alla trancia…</translation>
    </message>
    <message>
        <source>Dies, strokes and rows for the order, cut on a press</source>
        <translation>Fustelle, colpi e file per l&apos;ordine, tagliato alla trancia</translation>
    </message>
    <message>
        <source>Run plan</source>
        <translation>Piano della commessa</translation>
    </message>
    <message>
        <source>The lays of the order instead of the cost of a pair</source>
        <translation>I piazzamenti dell&apos;ordine invece del costo di un paio</translation>
    </message>
    <message>
        <source>Roll widths</source>
        <translation>Altezze</translation>
    </message>
    <message>
        <source>What a pair costs on rolls of other widths</source>
        <translation>Quanto costa un paio su rotoli di altra altezza</translation>
    </message>
    <message>
        <source>Cloths</source>
        <translation>Tessuti</translation>
    </message>
    <message>
        <source>What a pair costs in other cloths, and whether they hold</source>
        <translation>Quanto costa un paio con altri tessuti, e se tengono</translation>
    </message>
    <message>
        <source>Sensitivity</source>
        <translation>Sensibilità</translation>
    </message>
    <message>
        <source>How gap, end loss, plies and order affect the cost</source>
        <translation>Come distanza, perdita ai capi, strati e ordine incidono sul costo</translation>
    </message>
    <message>
        <source>Runs planned, what their lays actually used, and what the next may take</source>
        <translation>Commesse previste, quanto hanno usato davvero i piazzamenti e quanto può prendere la prossima</translation>
    </message>
    <message>
        <source>As text for pasting into a spreadsheet</source>
        <translation>Come testo da incollare in un foglio di calcolo</translation>
    </message>
    <message>
        <source>Runs</source>
        <translation>Commesse</translation>
    </message>
    <message>
        <source>Stop planning or press cutting</source>
        <translation>Ferma il piano o il taglio alla trancia</translation>
    </message>
    <message>
        <source>The best plan so far is kept; of a press list that is not finished nothing is written</source>
        <translation>Il piano migliore finora resta; di una lista per la trancia non finita non si scrive nulla</translation>
    </message>
    <message>
        <source>Open an order…</source>
        <translation>Apri un ordine…</translation>
    </message>
    <message>
        <source>Pairs per size from a CSV or XLSX file</source>
        <translation>Paia per misura da un file CSV o XLSX</translation>
    </message>
    <message>
        <source>Copy the tables</source>
        <translation>Copia le tabelle</translation>
    </message>
    <message>
        <source>Export the figures…</source>
        <translation>Esporta le cifre…</translation>
    </message>
    <message>
        <source>Fabric per pair as PDF, CSV and XLSX</source>
        <translation>Tessuto per paio in PDF, CSV e XLSX</translation>
    </message>
</context>
<context>
    <name>Desk</name>
    <message>
        <source>Cloth</source>
        <translation>Tessuto</translation>
    </message>
    <message>
        <source>Draft</source>
        <translation>Modello</translation>
    </message>
    <message>
        <source>Lay</source>
        <translation>Piazzamento</translation>
    </message>
    <message>
        <source>Cost</source>
        <translation>Costo</translation>
    </message>
</context>
<context>
    <name>Draft</name>
    <message>
        <source>Drawing board</source>
        <translation>Tavolo da disegno</translation>
    </message>
    <message>
        <source>The boards are being written.</source>
        <translation>Si stanno scrivendo i cartoni.</translation>
    </message>
    <message>
        <source>{0} to confirm</source>
        <translation>{0} da confermare</translation>
    </message>
    <message>
        <source>all confirmed</source>
        <translation>tutto confermato</translation>
    </message>
    <message>
        <source>Select an edge first: click it, or sweep over several.</source>
        <translation>Selezionare prima un bordo: clic, oppure passare su più bordi.</translation>
    </message>
    <message>
        <source>Everything is confirmed already.</source>
        <translation>È già tutto confermato.</translation>
    </message>
    <message>
        <source>Confirm everything</source>
        <translation>Conferma tutto</translation>
    </message>
    <message>
        <source>{0} edges and {1} pull axes are suggestions. Accept them all as they are?</source>
        <translation>{0} bordi e {1} assi di tiro sono proposte. Accettarli tutti così come sono?</translation>
    </message>
    <message>
        <source>Everything is confirmed.</source>
        <translation>Tutto è confermato.</translation>
    </message>
    <message>
        <source>No edge like that was found.</source>
        <translation>Nessun bordo simile trovato.</translation>
    </message>
    <message>
        <source>Copied to {0}; please confirm.</source>
        <translation>Copiato su {0}; da confermare.</translation>
    </message>
    <message>
        <source>Findings</source>
        <translation>Osservazioni</translation>
    </message>
    <message>
        <source>none</source>
        <translation>nessuno</translation>
    </message>
    <message>
        <source>Piece</source>
        <translation>Pezzo</translation>
    </message>
    <message>
        <source>Edges</source>
        <translation>Bordi</translation>
    </message>
    <message>
        <source>Name</source>
        <translation>Nome</translation>
    </message>
    <message>
        <source>The shoe that the piece is drawn for; the other gets the mirror image</source>
        <translation>La scarpa per cui il pezzo è disegnato; l&apos;altra riceve lo speculare</translation>
    </message>
    <message>
        <source>Left or right</source>
        <translation>Sinistro o destro</translation>
    </message>
    <message>
        <source>Pieces per shoe</source>
        <translation>Pezzi per scarpa</translation>
    </message>
    <message>
        <source>per shoe</source>
        <translation>per scarpa</translation>
    </message>
    <message>
        <source>Pull axis in degrees</source>
        <translation>Asse di tiro in gradi</translation>
    </message>
    <message>
        <source>Heel to toe, the way lasting pulls this piece: degrees counter-clockwise from the drawing&apos;s x axis</source>
        <translation>Da tallone a punta, come il montaggio tira questo pezzo: gradi in senso antiorario dall&apos;asse x del disegno</translation>
    </message>
    <message>
        <source>Confirm</source>
        <translation>Conferma</translation>
    </message>
    <message>
        <source>Pull axis</source>
        <translation>Asse di tiro</translation>
    </message>
    <message>
        <source>The figure beside the line is that of a strip of constant width. The page Pull of the Cloth desk takes the whole piece, and says why its figure differs.</source>
        <translation>Sul tavolo, accanto alla linea, sta quanto cede la linea: una striscia di larghezza costante. La pagina Tiro del banco Tessuto prende tutto il pezzo e dice perché dà un altro valore.</translation>
    </message>
    <message>
        <source>Setback</source>
        <translation>Arretramento</translation>
    </message>
    <message>
        <source>How far the backing stops short of this edge; negative runs past it. Empty takes the house rule.</source>
        <translation>Di quanto il rinforzo si ferma prima di questo bordo; negativo lo supera. Vuoto vale la regola della casa.</translation>
    </message>
    <message>
        <source>Allowance</source>
        <translation>Margine</translation>
    </message>
    <message>
        <source>Width outside the net line (lasting margin, fold, underlay); grading keeps it. Empty takes the house rule.</source>
        <translation>Larghezza fuori dalla linea netta (montaggio, ripiegatura, sottoposto); lo sviluppo la conserva. Vuoto vale la regola della casa.</translation>
    </message>
    <message>
        <source>Confirm as suggested</source>
        <translation>Conferma la proposta</translation>
    </message>
    <message>
        <source>No piece is selected: click one on the board.</source>
        <translation>Nessun pezzo selezionato: clic su uno sul tavolo.</translation>
    </message>
    <message>
        <source>Proposed, {0}</source>
        <translation>Proposto, {0}</translation>
    </message>
    <message>
        <source>Click an edge, or sweep over several.</source>
        <translation>Clic su un bordo, o passare su più bordi.</translation>
    </message>
    <message>
        <source>House rule {0}: {1}</source>
        <translation>Regola della casa {0}: {1}</translation>
    </message>
    <message>
        <source>Several kinds are selected.</source>
        <translation>Sono selezionati tipi diversi.</translation>
    </message>
    <message>
        <source>not backed</source>
        <translation>senza rinforzo</translation>
    </message>
    <message>
        <source>{0} layers</source>
        <translation>{0} strati</translation>
    </message>
    <message>
        <source>{0} parts</source>
        <translation>{0} parti</translation>
    </message>
    <message>
        <source>Pieces</source>
        <translation>Pezzi</translation>
    </message>
    <message>
        <source>Size</source>
        <translation>Misura</translation>
    </message>
    <message>
        <source>Size shown</source>
        <translation>Misura mostrata</translation>
    </message>
    <message>
        <source>compared with</source>
        <translation>a confronto con</translation>
    </message>
    <message>
        <source>Size to compare with</source>
        <translation>Misura di confronto</translation>
    </message>
    <message>
        <source>Draw another size over this one to compare them</source>
        <translation>Disegna un&apos;altra misura sopra questa per confrontarle</translation>
    </message>
    <message>
        <source>Boards</source>
        <translation>Cartoni</translation>
    </message>
    <message>
        <source>Reinforcement sheet</source>
        <translation>Scheda dei rinforzi</translation>
    </message>
    <message>
        <source>no style is open</source>
        <translation>nessun modello è aperto</translation>
    </message>
    <message>
        <source>Folder for boards and backing</source>
        <translation>Cartella per cartoni e rinforzi</translation>
    </message>
    <message>
        <source>Writing the boards…</source>
        <translation>Scrittura dei cartoni…</translation>
    </message>
    <message>
        <source>Boards (PDF, DXF, HP-GL) and backing (DXF) written to {0}</source>
        <translation>Cartoni (PDF, DXF, HP-GL) e rinforzi (DXF) scritti in {0}</translation>
    </message>
    <message>
        <source>Hold limit</source>
        <translation>Limite di tenuta</translation>
    </message>
    <message>
        <source>How far the hold line may give under the pull. Empty: no limit.</source>
        <translation>Di quanto la linea di tenuta può cedere sotto il tiro. Vuoto: nessun limite.</translation>
    </message>
    <message>
        <source>Hold line</source>
        <translation>Linea di tenuta</translation>
    </message>
    <message>
        <source>none (H draws it)</source>
        <translation>nessuna (H la traccia)</translation>
    </message>
    <message>
        <source>corner</source>
        <translation>angolo</translation>
    </message>
    <message>
        <source>middle of edge</source>
        <translation>metà del bordo</translation>
    </message>
    <message>
        <source>drawn point</source>
        <translation>punto disegnato</translation>
    </message>
    <message>
        <source>backing</source>
        <translation>rinforzo</translation>
    </message>
    <message>
        <source>crossing</source>
        <translation>incrocio</translation>
    </message>
    <message>
        <source>drawn line</source>
        <translation>linea disegnata</translation>
    </message>
    <message>
        <source>closes</source>
        <translation>chiude</translation>
    </message>
    <message>
        <source>edge</source>
        <translation>bordo</translation>
    </message>
    <message>
        <source>pull axis</source>
        <translation>asse di tiro</translation>
    </message>
    <message>
        <source>whole step</source>
        <translation>passo intero</translation>
    </message>
    <message>
        <source>Edges, axes and hold lines are marked on the base size; this size follows.</source>
        <translation>Bordi, assi e linee di tenuta si segnano sulla misura base; questa segue.</translation>
    </message>
    <message>
        <source>click the side that stays</source>
        <translation>fare clic sul lato che resta</translation>
    </message>
    <message>
        <source>Layer drawn on</source>
        <translation>Strato su cui si disegna</translation>
    </message>
    <message>
        <source>Length of the step</source>
        <translation>Lunghezza del passo</translation>
    </message>
    <message>
        <source>Angle of the step</source>
        <translation>Angolo del passo</translation>
    </message>
    <message>
        <source>Length</source>
        <translation>Lunghezza</translation>
    </message>
    <message>
        <source>Angle</source>
        <translation>Angolo</translation>
    </message>
    <message>
        <source>Set point</source>
        <translation>Metti il punto</translation>
    </message>
    <message>
        <source>Parts</source>
        <translation>Parti</translation>
    </message>
    <message>
        <source>left of the line</source>
        <translation>a sinistra</translation>
    </message>
    <message>
        <source>right of the line</source>
        <translation>a destra</translation>
    </message>
    <message>
        <source>left part</source>
        <translation>parte a sinistra</translation>
    </message>
    <message>
        <source>right part</source>
        <translation>parte a destra</translation>
    </message>
    <message>
        <source>Name of the part {0}</source>
        <translation>Nome della parte {0}</translation>
    </message>
    <message>
        <source>Drawn on</source>
        <translation>Disegnato su</translation>
    </message>
    <message>
        <source>on upper and backing</source>
        <translation>su tomaia e rinforzo</translation>
    </message>
    <message>
        <source>on the upper</source>
        <translation>sulla tomaia</translation>
    </message>
    <message>
        <source>on the backing</source>
        <translation>sul rinforzo</translation>
    </message>
    <message>
        <source>Smooth</source>
        <translation>Curva</translation>
    </message>
    <message>
        <source>Overlap, radius, depth or diameter</source>
        <translation>Sovrapposizione, raggio, profondità o diametro</translation>
    </message>
    <message>
        <source>Keep free</source>
        <translation>Lascia libero</translation>
    </message>
    <message>
        <source>End the line</source>
        <translation>Fine linea</translation>
    </message>
    <message>
        <source>Cut line</source>
        <translation>Linea di taglio</translation>
    </message>
    <message>
        <source>Region</source>
        <translation>Zona</translation>
    </message>
    <message>
        <source>Split</source>
        <translation>Divisione</translation>
    </message>
    <message>
        <source>Change by hand</source>
        <translation>Cambio a mano</translation>
    </message>
    <message>
        <source>Smooth stretch</source>
        <translation>Liscia tratto</translation>
    </message>
    <message>
        <source>Notch</source>
        <translation>Tacca</translation>
    </message>
    <message>
        <source>Slit</source>
        <translation>Fessura</translation>
    </message>
    <message>
        <source>Mark</source>
        <translation>Segno</translation>
    </message>
    <message>
        <source>Drill hole</source>
        <translation>Foro</translation>
    </message>
    <message>
        <source>Overlap</source>
        <translation>Sovrapposizione</translation>
    </message>
    <message>
        <source>Corner radius</source>
        <translation>Raggio degli angoli</translation>
    </message>
    <message>
        <source>Diameter</source>
        <translation>Diametro</translation>
    </message>
    <message>
        <source>layer {0}</source>
        <translation>strato {0}</translation>
    </message>
    <message>
        <source>new layer of {0}</source>
        <translation>nuovo strato di {0}</translation>
    </message>
    <message>
        <source>Type length and angle of the step.</source>
        <translation>Digita lunghezza e angolo del passo.</translation>
    </message>
    <message>
        <source>{0}: 0 or more.</source>
        <translation>{0}: 0 o più.</translation>
    </message>
    <message>
        <source>At the edge&apos;s start</source>
        <translation>All&apos;inizio del bordo</translation>
    </message>
    <message>
        <source>At its end</source>
        <translation>Alla fine</translation>
    </message>
    <message>
        <source>Setback along the edge</source>
        <translation>Arretramento lungo il bordo</translation>
    </message>
    <message>
        <source>{0}: type a length</source>
        <translation>{0}: digita una lunghezza</translation>
    </message>
    <message>
        <source>{0}: type a number</source>
        <translation>{0}: digita un numero</translation>
    </message>
    <message>
        <source>Write on the piece</source>
        <translation>Scrivi sul pezzo</translation>
    </message>
    <message>
        <source>Height of the letters</source>
        <translation>Altezza delle lettere</translation>
    </message>
    <message>
        <source>Distance from the net line</source>
        <translation>Distanza dalla linea netta</translation>
    </message>
    <message>
        <source>Stay along the edge</source>
        <translation>Fettuccia lungo il bordo</translation>
    </message>
    <message>
        <source>Width from the cut edge</source>
        <translation>Larghezza dal bordo tagliato</translation>
    </message>
    <message>
        <source>Cloth</source>
        <translation>Tessuto</translation>
    </message>
    <message>
        <source>Pitch</source>
        <translation>Passo</translation>
    </message>
    <message>
        <source>Depth</source>
        <translation>Profondità</translation>
    </message>
    <message>
        <source>Relief cuts along the edge</source>
        <translation>Tagli di sgravio lungo il bordo</translation>
    </message>
    <message>
        <source>Break at corners</source>
        <translation>Spezza agli angoli</translation>
    </message>
    <message>
        <source>Word</source>
        <translation>Parola</translation>
    </message>
    <message>
        <source>Corners that turn by more than (degrees)</source>
        <translation>Angoli che girano di più di (gradi)</translation>
    </message>
    <message>
        <source>There is no other piece to back it with.</source>
        <translation>Non c&apos;è un altro pezzo con cui rinforzarlo insieme.</translation>
    </message>
    <message>
        <source>With piece</source>
        <translation>Con il pezzo</translation>
    </message>
    <message>
        <source>Nothing is drawn on this piece.</source>
        <translation>Su questo pezzo non è disegnato nulla.</translation>
    </message>
    <message>
        <source>End the backing parallel to the edge</source>
        <translation>Termina il rinforzo parallelo al bordo</translation>
    </message>
    <message>
        <source>One backing for two pieces</source>
        <translation>Un solo rinforzo per due pezzi</translation>
    </message>
    <message>
        <source>Remove what was drawn</source>
        <translation>Togli ciò che è disegnato</translation>
    </message>
    <message>
        <source>Drawn on the piece</source>
        <translation>Disegnato sul pezzo</translation>
    </message>
    <message>
        <source>cut or region</source>
        <translation>taglio o zona</translation>
    </message>
    <message>
        <source>change by hand</source>
        <translation>cambio a mano</translation>
    </message>
    <message>
        <source>split</source>
        <translation>divisione</translation>
    </message>
    <message>
        <source>joined with {0}</source>
        <translation>unito con {0}</translation>
    </message>
    <message>
        <source>Select one edge first: click it.</source>
        <translation>Scegliere prima un bordo: farvi clic.</translation>
    </message>
    <message>
        <source>At its left end</source>
        <translation>All&apos;estremità sinistra</translation>
    </message>
    <message>
        <source>At its right end</source>
        <translation>All&apos;estremità destra</translation>
    </message>
    <message>
        <source>At its lower end</source>
        <translation>All&apos;estremità inferiore</translation>
    </message>
    <message>
        <source>At its upper end</source>
        <translation>All&apos;estremità superiore</translation>
    </message>
    <message>
        <source>Select a piece or an edge first.</source>
        <translation>Scegliere prima un pezzo o un bordo.</translation>
    </message>
    <message>
        <source>notch</source>
        <translation>tacca</translation>
    </message>
    <message>
        <source>relief cuts</source>
        <translation>tagli di sgravio</translation>
    </message>
    <message>
        <source>slit</source>
        <translation>fessura</translation>
    </message>
    <message>
        <source>drill hole</source>
        <translation>foro</translation>
    </message>
    <message>
        <source>mark</source>
        <translation>segno</translation>
    </message>
    <message>
        <source>word</source>
        <translation>parola</translation>
    </message>
    <message>
        <source>Name of the new piece</source>
        <translation>Nome del nuovo pezzo</translation>
    </message>
    <message>
        <source>Width, or length of the step</source>
        <translation>Larghezza, o lunghezza del passo</translation>
    </message>
    <message>
        <source>Height</source>
        <translation>Altezza</translation>
    </message>
    <message>
        <source>Draw</source>
        <translation>Disegna</translation>
    </message>
    <message>
        <source>Backing alone</source>
        <translation>Solo rinforzo</translation>
    </message>
    <message>
        <source>No upper is cut: the shape is cut from cloth as it is drawn</source>
        <translation>Non si taglia tomaia: la forma si taglia dal tessuto com&apos;è disegnata</translation>
    </message>
    <message>
        <source>Close the shape</source>
        <translation>Chiudi la forma</translation>
    </message>
    <message>
        <source>Rectangle</source>
        <translation>Rettangolo</translation>
    </message>
    <message>
        <source>Free shape</source>
        <translation>Forma libera</translation>
    </message>
    <message>
        <source>Width</source>
        <translation>Larghezza</translation>
    </message>
    <message>
        <source>Type both figures.</source>
        <translation>Digita entrambi i valori.</translation>
    </message>
    <message>
        <source>Instead of the step, the setback can run evenly along</source>
        <translation>Invece del gradino l’arretramento può variare in modo uniforme lungo</translation>
    </message>
    <message>
        <source>{0} before it: {1} to {2}</source>
        <translation>{0} prima: da {1} a {2}</translation>
    </message>
    <message>
        <source>{0} behind it: {1} to {2}</source>
        <translation>{0} dopo: da {1} a {2}</translation>
    </message>
    <message>
        <source>Size {0} is being derived ...</source>
        <translation>Si deriva la misura {0} ...</translation>
    </message>
</context>
<context>
    <name>DraftAction</name>
    <message>
        <source>Edge: lasting</source>
        <translation>Bordo: montaggio</translation>
    </message>
    <message>
        <source>Edge: folded</source>
        <translation>Bordo: ripiegato</translation>
    </message>
    <message>
        <source>Edge: skived</source>
        <translation>Bordo: scarnito</translation>
    </message>
    <message>
        <source>Edge: underlay</source>
        <translation>Bordo: sottoposto</translation>
    </message>
    <message>
        <source>Edge: overlay</source>
        <translation>Bordo: sovrapposto</translation>
    </message>
    <message>
        <source>Edge: seam</source>
        <translation>Bordo: cucitura</translation>
    </message>
    <message>
        <source>Edge: raw</source>
        <translation>Bordo: taglio vivo</translation>
    </message>
    <message>
        <source>Edge: centre</source>
        <translation>Bordo: mezzeria</translation>
    </message>
    <message>
        <source>Select and drag</source>
        <translation>Seleziona e trascina</translation>
    </message>
    <message>
        <source>Click an edge or a piece, sweep over edges, drag a break point or the pull axis</source>
        <translation>Clic su un bordo o un pezzo, passare sui bordi, trascinare un punto di divisione o l&apos;asse di tiro</translation>
    </message>
    <message>
        <source>Break points</source>
        <translation>Punti di divisione</translation>
    </message>
    <message>
        <source>Click an outline to end an edge there; click a break point to remove it</source>
        <translation>Clic sul contorno per dividere un bordo; clic su un punto di divisione per toglierlo</translation>
    </message>
    <message>
        <source>Measure</source>
        <translation>Misura</translation>
    </message>
    <message>
        <source>Drag between two points; ends snap to drawn points, Alt measures freely</source>
        <translation>Trascinare tra due punti; gli estremi si agganciano ai punti disegnati, Alt misura libero</translation>
    </message>
    <message>
        <source>Type a setback</source>
        <translation>Scrivi un arretramento</translation>
    </message>
    <message>
        <source>How far the backing stops short of the selected edges</source>
        <translation>Di quanto il rinforzo si ferma prima dei bordi selezionati</translation>
    </message>
    <message>
        <source>Half a millimetre at a time</source>
        <translation>Mezzo millimetro per volta</translation>
    </message>
    <message>
        <source>Setback by house rule</source>
        <translation>Arretramento da regola della casa</translation>
    </message>
    <message>
        <source>Type the pull axis</source>
        <translation>Scrivi l&apos;asse di tiro</translation>
    </message>
    <message>
        <source>Heel to toe, the way lasting pulls the piece</source>
        <translation>Da tallone a punta, come il montaggio tira il pezzo</translation>
    </message>
    <message>
        <source>Turn the pull axis left</source>
        <translation>Gira l&apos;asse di tiro a sinistra</translation>
    </message>
    <message>
        <source>One degree at a time</source>
        <translation>Un grado per volta</translation>
    </message>
    <message>
        <source>Turn the pull axis right</source>
        <translation>Gira l&apos;asse di tiro a destra</translation>
    </message>
    <message>
        <source>How far the hold line may give under the pull</source>
        <translation>Di quanto la linea di tenuta può cedere sotto il tiro</translation>
    </message>
    <message>
        <source>Confirm what is selected</source>
        <translation>Conferma la selezione</translation>
    </message>
    <message>
        <source>The selected edges, or the pull axis when no edge is selected</source>
        <translation>I bordi selezionati, o l&apos;asse di tiro se nessun bordo è selezionato</translation>
    </message>
    <message>
        <source>Confirm the piece</source>
        <translation>Conferma il pezzo</translation>
    </message>
    <message>
        <source>All edges and the pull axis of the selected piece as they are</source>
        <translation>Tutti i bordi e l&apos;asse di tiro del pezzo selezionato così come sono</translation>
    </message>
    <message>
        <source>Confirm everything</source>
        <translation>Conferma tutto</translation>
    </message>
    <message>
        <source>All suggestions of all pieces as they are</source>
        <translation>Tutte le proposte di tutti i pezzi così come sono</translation>
    </message>
    <message>
        <source>Copy kinds to the mirrored edges</source>
        <translation>Copia i tipi sui bordi speculari</translation>
    </message>
    <message>
        <source>To the edges that mirror the selected ones, on this piece or on its mirrored twin; as suggestions</source>
        <translation>Sui bordi speculari a quelli selezionati, su questo pezzo o sul suo gemello; come proposte</translation>
    </message>
    <message>
        <source>Copy kinds to similar edges</source>
        <translation>Copia i tipi sui bordi simili</translation>
    </message>
    <message>
        <source>To edges of nearly the same length and shape on all pieces; as suggestions</source>
        <translation>Sui bordi di lunghezza e forma quasi uguali su tutti i pezzi; come proposte</translation>
    </message>
    <message>
        <source>Next piece</source>
        <translation>Pezzo seguente</translation>
    </message>
    <message>
        <source>Previous piece</source>
        <translation>Pezzo precedente</translation>
    </message>
    <message>
        <source>Next edge</source>
        <translation>Bordo seguente</translation>
    </message>
    <message>
        <source>Previous edge</source>
        <translation>Bordo precedente</translation>
    </message>
    <message>
        <source>All edges of the piece</source>
        <translation>Tutti i bordi del pezzo</translation>
    </message>
    <message>
        <source>Next to confirm</source>
        <translation>Prossimo da confermare</translation>
    </message>
    <message>
        <source>Go to the next edge or pull axis that is still a suggestion</source>
        <translation>Vai al prossimo bordo o asse di tiro ancora proposto</translation>
    </message>
    <message>
        <source>Write boards and backing…</source>
        <translation>Scrivi cartoni e rinforzi…</translation>
    </message>
    <message>
        <source>Card patterns at full size (PDF, DXF, HP-GL) and the backing (DXF), all sizes, both hands</source>
        <translation>Cartoni a grandezza naturale (PDF, DXF, HP-GL) e rinforzi (DXF), tutte le misure, sinistri e destri</translation>
    </message>
    <message>
        <source>Show everything</source>
        <translation>Mostra tutto</translation>
    </message>
    <message>
        <source>Zoom in</source>
        <translation>Ingrandisci</translation>
    </message>
    <message>
        <source>Zoom out</source>
        <translation>Rimpicciolisci</translation>
    </message>
    <message>
        <source>Only the selected piece</source>
        <translation>Solo il pezzo selezionato</translation>
    </message>
    <message>
        <source>Show one piece by itself</source>
        <translation>Mostra un pezzo da solo</translation>
    </message>
    <message>
        <source>Glue side up</source>
        <translation>Lato colla in vista</translation>
    </message>
    <message>
        <source>Turn the pieces over: the coated side of the backing, left and right exchanged</source>
        <translation>Gira i pezzi: il lato spalmato del rinforzo, destra e sinistra scambiate</translation>
    </message>
    <message>
        <source>Upper</source>
        <translation>Tomaia</translation>
    </message>
    <message>
        <source>Backing</source>
        <translation>Rinforzo</translation>
    </message>
    <message>
        <source>Setback figures</source>
        <translation>Quote di arretramento</translation>
    </message>
    <message>
        <source>Pull axis</source>
        <translation>Asse di tiro</translation>
    </message>
    <message>
        <source>Hold line</source>
        <translation>Linea di tenuta</translation>
    </message>
    <message>
        <source>Edge kind</source>
        <translation>Tipo di bordo</translation>
    </message>
    <message>
        <source>Pull axis and hold line</source>
        <translation>Asse di tiro e linea di tenuta</translation>
    </message>
    <message>
        <source>Drag on a piece from heel to throat; drag an end or the line to move it. Ctrl keeps to the pull axis, Alt is free</source>
        <translation>Trascinare sul pezzo dal tallone allo scollo; trascinare un estremo o la linea per spostarla. Ctrl segue l&apos;asse di tiro, Alt è libero</translation>
    </message>
    <message>
        <source>Increase setback</source>
        <translation>Aumenta l&apos;arretramento</translation>
    </message>
    <message>
        <source>Reduce setback</source>
        <translation>Riduci l&apos;arretramento</translation>
    </message>
    <message>
        <source>Remove the edge&apos;s own setback</source>
        <translation>Togli l&apos;arretramento proprio del bordo</translation>
    </message>
    <message>
        <source>Type the hold limit</source>
        <translation>Scrivi il limite di tenuta</translation>
    </message>
    <message>
        <source>Remove the hold line</source>
        <translation>Togli la linea di tenuta</translation>
    </message>
    <message>
        <source>Of the selected piece, with its limit</source>
        <translation>Del pezzo selezionato, con il suo limite</translation>
    </message>
    <message>
        <source>Deselect</source>
        <translation>Deseleziona</translation>
    </message>
    <message>
        <source>Cancel the gesture; then deselect the edges, then the piece</source>
        <translation>Annulla il gesto; poi deseleziona i bordi, poi il pezzo</translation>
    </message>
    <message>
        <source>Show selection</source>
        <translation>Mostra la selezione</translation>
    </message>
    <message>
        <source>Hold lines</source>
        <translation>Linee di tenuta</translation>
    </message>
    <message>
        <source>Draw</source>
        <translation>Disegna</translation>
    </message>
    <message>
        <source>Draw a cut line</source>
        <translation>Disegna una linea di taglio</translation>
    </message>
    <message>
        <source>Click the line across a piece, Enter or a double click ends it; then click the side of the backing that stays</source>
        <translation>Tracciare con i clic la linea attraverso un pezzo, Invio o doppio clic la termina; poi fare clic sul lato del rinforzo che resta</translation>
    </message>
    <message>
        <source>Draw a region</source>
        <translation>Disegna una zona</translation>
    </message>
    <message>
        <source>A closed shape that a layer of backing stays inside, or outside</source>
        <translation>Una forma chiusa entro cui, o fuori da cui, resta uno strato di rinforzo</translation>
    </message>
    <message>
        <source>Split the backing</source>
        <translation>Dividi il rinforzo</translation>
    </message>
    <message>
        <source>A line that divides the backing; its parts butt, or overlap by what is typed</source>
        <translation>Una linea che divide il rinforzo; le parti combaciano o si sovrappongono di quanto scritto</translation>
    </message>
    <message>
        <source>Change a stretch by hand</source>
        <translation>Cambia un tratto a mano</translation>
    </message>
    <message>
        <source>A line from one point of the backing&apos;s outline to another replaces what lies between</source>
        <translation>Una linea da un punto all&apos;altro del contorno del rinforzo sostituisce il tratto tra i due</translation>
    </message>
    <message>
        <source>Smooth a stretch</source>
        <translation>Liscia un tratto</translation>
    </message>
    <message>
        <source>Click two points of the backing&apos;s outline: what lies between becomes one smooth curve</source>
        <translation>Fare clic su due punti del contorno del rinforzo: il tratto in mezzo diventa una sola curva</translation>
    </message>
    <message>
        <source>Set a notch</source>
        <translation>Metti una tacca</translation>
    </message>
    <message>
        <source>Click an edge: a notch on upper and backing</source>
        <translation>Fare clic su un bordo: una tacca su tomaia e rinforzo</translation>
    </message>
    <message>
        <source>Set a drill hole</source>
        <translation>Metti un foro</translation>
    </message>
    <message>
        <source>Click inside a piece: a hole on upper and backing</source>
        <translation>Fare clic dentro un pezzo: un foro su tomaia e rinforzo</translation>
    </message>
    <message>
        <source>Draw a slit</source>
        <translation>Disegna una fessura</translation>
    </message>
    <message>
        <source>A line that is cut inside the piece, on the backing or the upper</source>
        <translation>Una linea tagliata dentro il pezzo, sul rinforzo o sulla tomaia</translation>
    </message>
    <message>
        <source>Draw a mark</source>
        <translation>Disegna un segno</translation>
    </message>
    <message>
        <source>A line that is drawn and not cut, on the upper or the backing</source>
        <translation>Una linea disegnata e non tagliata, sulla tomaia o sul rinforzo</translation>
    </message>
    <message>
        <source>New piece: rectangle</source>
        <translation>Nuovo pezzo: rettangolo</translation>
    </message>
    <message>
        <source>Drag from corner to corner or type the sides: an upper, or a backing without upper</source>
        <translation>Trascinare da angolo ad angolo o digitare i lati: una tomaia, o un rinforzo senza tomaia</translation>
    </message>
    <message>
        <source>New piece: free shape</source>
        <translation>Nuovo pezzo: forma libera</translation>
    </message>
    <message>
        <source>Click its corners, or type each step; Enter or a click on the first corner closes it</source>
        <translation>Fare clic sugli angoli, o digitare ogni passo; Invio o un clic sul primo angolo la chiude</translation>
    </message>
    <message>
        <source>Setback from one value to another…</source>
        <translation>Arretramento da un valore a un altro…</translation>
    </message>
    <message>
        <source>Along the selected edge, in proportion to its length</source>
        <translation>Lungo il bordo scelto, in proporzione alla lunghezza</translation>
    </message>
    <message>
        <source>End the backing parallel to the edge…</source>
        <translation>Termina il rinforzo parallelo al bordo…</translation>
    </message>
    <message>
        <source>On a line parallel to the selected edge, at a distance typed</source>
        <translation>Su una linea parallela al bordo scelto, alla distanza scritta</translation>
    </message>
    <message>
        <source>One more layer, of a width typed, along the selected edge</source>
        <translation>Un altro strato, largo quanto scritto, lungo il bordo scelto</translation>
    </message>
    <message>
        <source>Write on the piece…</source>
        <translation>Scrivi sul pezzo…</translation>
    </message>
    <message>
        <source>A word in the middle of the selected piece, on its backing, its upper or both</source>
        <translation>Una scritta al centro del pezzo selezionato, sul rinforzo, sulla tomaia o su tutti e due</translation>
    </message>
    <message>
        <source>One backing for two pieces…</source>
        <translation>Un solo rinforzo per due pezzi…</translation>
    </message>
    <message>
        <source>Remove what was drawn…</source>
        <translation>Togli ciò che è disegnato…</translation>
    </message>
    <message>
        <source>Stay along the edge…</source>
        <translation>Fettuccia lungo il bordo…</translation>
    </message>
    <message>
        <source>Relief cuts along the edge…</source>
        <translation>Tagli di sgravio lungo il bordo…</translation>
    </message>
    <message>
        <source>V cuts at a pitch typed, so that a curved fold lies flat</source>
        <translation>Tagli a V al passo scritto, perché un ripiegato curvo resti piano</translation>
    </message>
    <message>
        <source>All edges of this kind</source>
        <translation>Tutti i bordi di questo tipo</translation>
    </message>
    <message>
        <source>Select every edge of the piece that is of the kind selected</source>
        <translation>Sceglie ogni bordo del pezzo che è del tipo scelto</translation>
    </message>
    <message>
        <source>Break at corners…</source>
        <translation>Spezza agli angoli…</translation>
    </message>
    <message>
        <source>End edges at every corner that turns by more than an angle typed</source>
        <translation>Termina i bordi a ogni angolo che gira di più dell&apos;angolo scritto</translation>
    </message>
    <message>
        <source>The backing runs on over the seam to a piece that lies against this one</source>
        <translation>Il rinforzo prosegue oltre la cucitura su un pezzo che sta contro questo</translation>
    </message>
    <message>
        <source>A cut, region, split, change, join, layer, notch or mark of the selected piece</source>
        <translation>Un taglio, zona, divisione, cambio, unione, strato, tacca o segno del pezzo scelto</translation>
    </message>
    <message>
        <source>Piece</source>
        <translation>Pezzo</translation>
    </message>
    <message>
        <source>Sizes</source>
        <translation>Misure</translation>
    </message>
    <message>
        <source>System, base size, sizes added and removed, how each comes about</source>
        <translation>Sistema, misura base, misure aggiunte e tolte, come nasce ciascuna</translation>
    </message>
    <message>
        <source>Measures</source>
        <translation>Misurazioni</translation>
    </message>
    <message>
        <source>Lengths along edges, seams, areas of all pieces; two sizes or versions compared</source>
        <translation>Lunghezze lungo i bordi, cuciture, aree di tutti i pezzi; due misure o versioni a confronto</translation>
    </message>
    <message>
        <source>Half patterns and twins</source>
        <translation>Mezzi modelli e gemelli</translation>
    </message>
    <message>
        <source>Unfold over the centre line</source>
        <translation>Apri sulla linea di mezzeria</translation>
    </message>
    <message>
        <source>A half pattern becomes the whole piece, over the selected edge or the one marked centre</source>
        <translation>Un mezzo modello diventa il pezzo intero, sul bordo selezionato o su quello segnato come mezzeria</translation>
    </message>
    <message>
        <source>Fold to a half pattern</source>
        <translation>Piega a mezzo modello</translation>
    </message>
    <message>
        <source>Over the piece&apos;s axis of symmetry; the fold is its centre edge</source>
        <translation>Sull&apos;asse di simmetria del pezzo; la piega è il suo bordo di mezzeria</translation>
    </message>
    <message>
        <source>Mirror to a new twin…</source>
        <translation>Specchia in un nuovo gemello…</translation>
    </message>
    <message>
        <source>The mirror image as another piece of the same shoe, kept like this one or not</source>
        <translation>L&apos;immagine speculare come altro pezzo della stessa scarpa, tenuta uguale a questo o no</translation>
    </message>
    <message>
        <source>Copy all to the twin</source>
        <translation>Copia tutto sul gemello</translation>
    </message>
    <message>
        <source>Break points, kinds, setbacks, pull axis, hold line and layers, to the mirrored piece</source>
        <translation>Punti di divisione, tipi, arretramenti, asse di tiro, linea di tenuta e strati, sul pezzo speculare</translation>
    </message>
    <message>
        <source>Link or unlink twins</source>
        <translation>Collega o scollega gemelli</translation>
    </message>
    <message>
        <source>Pair sewn edges</source>
        <translation>Accoppia bordi cuciti</translation>
    </message>
    <message>
        <source>What is done to one is done to the other, mirrored, until unlinked</source>
        <translation>Ciò che si fa a uno si fa all&apos;altro, speculare, finché restano collegati</translation>
    </message>
    <message>
        <source>With one edge selected, then again with the other: their lengths are compared</source>
        <translation>Con un bordo selezionato, poi di nuovo con l&apos;altro: si confrontano le lunghezze</translation>
    </message>
    <message>
        <source>Duplicate the piece</source>
        <translation>Duplica il pezzo</translation>
    </message>
    <message>
        <source>Delete the piece</source>
        <translation>Elimina il pezzo</translation>
    </message>
    <message>
        <source>Add pieces of a drawing…</source>
        <translation>Aggiungi pezzi di un disegno…</translation>
    </message>
    <message>
        <source>Pieces of another DXF come into this style, edges and axis proposed</source>
        <translation>Pezzi di un altro DXF entrano in questo modello, bordi e asse proposti</translation>
    </message>
    <message>
        <source>Draw a new piece…</source>
        <translation>Disegna un nuovo pezzo…</translation>
    </message>
    <message>
        <source>A rectangle or a shape through typed corners, as an upper or as a backing without upper</source>
        <translation>Un rettangolo o una forma per angoli digitati, come tomaia o come rinforzo senza tomaia</translation>
    </message>
    <message>
        <source>Size nest</source>
        <translation>Misure sovrapposte</translation>
    </message>
    <message>
        <source>The outlines of all sizes over the one shown</source>
        <translation>I contorni di tutte le misure sopra quella mostrata</translation>
    </message>
</context>
<context>
    <name>Edge</name>
    <message>
        <source>Lasting</source>
        <translation>Montaggio</translation>
    </message>
    <message>
        <source>Folded</source>
        <translation>Ripiegato</translation>
    </message>
    <message>
        <source>Skived</source>
        <translation>Scarnito</translation>
    </message>
    <message>
        <source>Underlay</source>
        <translation>Sottoposto</translation>
    </message>
    <message>
        <source>Overlay</source>
        <translation>Sovrapposto</translation>
    </message>
    <message>
        <source>Seam</source>
        <translation>Cucitura</translation>
    </message>
    <message>
        <source>Raw</source>
        <translation>Taglio vivo</translation>
    </message>
    <message>
        <source>Centre</source>
        <translation>Mezzeria</translation>
    </message>
    <message>
        <source>Pulled under the last and cemented to the insole.</source>
        <translation>Tirato sotto la forma e incollato al sottopiede.</translation>
    </message>
    <message>
        <source>Turned over and cemented; the backing stops short of the fold.</source>
        <translation>Ripiegato e incollato; il rinforzo si ferma prima della piega.</translation>
    </message>
    <message>
        <source>Upper and backing are thinned together towards the edge.</source>
        <translation>Tomaia e rinforzo sono assottigliati insieme verso il bordo.</translation>
    </message>
    <message>
        <source>Goes under another piece; no bulk is wanted there.</source>
        <translation>Va sotto un altro pezzo; lì non si vuole spessore.</translation>
    </message>
    <message>
        <source>Lies over another piece and is stitched down.</source>
        <translation>Sta sopra un altro pezzo e vi è cucito.</translation>
    </message>
    <message>
        <source>Joined to another piece by a closed seam.</source>
        <translation>Unito a un altro pezzo con cucitura chiusa.</translation>
    </message>
    <message>
        <source>Cut and left as it is; the cloth must not show.</source>
        <translation>Tagliato e lasciato così; il tessuto non deve vedersi.</translation>
    </message>
    <message>
        <source>Fold line of a half pattern: the piece goes on beyond it.</source>
        <translation>Linea di piega di un mezzo modello: il pezzo continua oltre.</translation>
    </message>
</context>
<context>
    <name>Field</name>
    <message>
        <source>“{0}” is not a number</source>
        <translation>«{0}» non è un numero</translation>
    </message>
</context>
<context>
    <name>Files</name>
    <message>
        <source>Open a style</source>
        <translation>Apri un modello</translation>
    </message>
    <message>
        <source>Styles (*{0});;Drawings (*.dxf);;All files (*)</source>
        <translation>Modelli (*{0});;Disegni (*.dxf);;Tutti i file (*)</translation>
    </message>
    <message>
        <source>New style from drawings</source>
        <translation>Nuovo modello da disegni</translation>
    </message>
    <message>
        <source>Drawings (*.dxf);;All files (*)</source>
        <translation>Disegni (*.dxf);;Tutti i file (*)</translation>
    </message>
    <message>
        <source>Revised drawing</source>
        <translation>Disegno rivisto</translation>
    </message>
    <message>
        <source>Picture of card patterns</source>
        <translation>Immagine di cartoni</translation>
    </message>
    <message>
        <source>Pictures ({0});;All files (*)</source>
        <translation>Immagini ({0});;Tutti i file (*)</translation>
    </message>
    <message>
        <source>Save the style as</source>
        <translation>Salva il modello come</translation>
    </message>
    <message>
        <source>Styles (*{0})</source>
        <translation>Modelli (*{0})</translation>
    </message>
    <message>
        <source>Unsaved changes</source>
        <translation>Modifiche non salvate</translation>
    </message>
    <message>
        <source>“{0}” has changes that are not saved.</source>
        <translation>«{0}» ha modifiche non salvate.</translation>
    </message>
    <message>
        <source>The last steps: {0}</source>
        <translation>Gli ultimi passi: {0}</translation>
    </message>
    <message>
        <source>Save</source>
        <translation>Salva</translation>
    </message>
    <message>
        <source>Do not save</source>
        <translation>Non salvare</translation>
    </message>
    <message>
        <source>Cancel</source>
        <translation>Annulla</translation>
    </message>
    <message>
        <source>Unsaved work was found</source>
        <translation>Trovato lavoro non salvato</translation>
    </message>
    <message>
        <source>The program ended before “{0}” was saved.</source>
        <translation>Il programma è terminato prima che «{0}» fosse salvato.</translation>
    </message>
    <message>
        <source>not saved in a file yet</source>
        <translation>non ancora salvato in un file</translation>
    </message>
    <message>
        <source>Last change: {0}
File: {1}
Restoring opens it unsaved; the file stays as it is.</source>
        <translation>Ultima modifica: {0}
File: {1}
Il ripristino lo apre come non salvato; il file resta com&apos;è.</translation>
    </message>
    <message>
        <source>Restore</source>
        <translation>Ripristina</translation>
    </message>
    <message>
        <source>Ask again later</source>
        <translation>Chiedi più tardi</translation>
    </message>
    <message>
        <source>Discard</source>
        <translation>Scarta</translation>
    </message>
    <message>
        <source>The file was changed elsewhere</source>
        <translation>Il file è stato modificato altrove</translation>
    </message>
    <message>
        <source>“{0}” was saved by another window or program since it was read here.</source>
        <translation>«{0}» è stato salvato da un&apos;altra finestra o da un altro programma dopo essere stato letto qui.</translation>
    </message>
    <message>
        <source>and {0} more</source>
        <translation>e altre {0}</translation>
    </message>
    <message>
        <source>What differs:
{0}</source>
        <translation>Che cosa è diverso:
{0}</translation>
    </message>
    <message>
        <source>Overwrite with mine</source>
        <translation>Sovrascrivi con la mia</translation>
    </message>
    <message>
        <source>Use theirs</source>
        <translation>Prendi l’altra</translation>
    </message>
    <message>
        <source>Keep mine</source>
        <translation>Tieni la mia</translation>
    </message>
    <message>
        <source>Save mine beside it…</source>
        <translation>Salva la mia accanto…</translation>
    </message>
</context>
<context>
    <name>Finding</name>
    <message>
        <source>Note</source>
        <translation>Nota</translation>
    </message>
    <message>
        <source>Warning</source>
        <translation>Avviso</translation>
    </message>
    <message>
        <source>To confirm</source>
        <translation>Da confermare</translation>
    </message>
    <message>
        <source>Error</source>
        <translation>Errore</translation>
    </message>
    <message>
        <source>1 error</source>
        <translation>1 errore</translation>
    </message>
    <message>
        <source>{0} errors</source>
        <translation>{0} errori</translation>
    </message>
    <message>
        <source>1 warning</source>
        <translation>1 avviso</translation>
    </message>
    <message>
        <source>{0} warnings</source>
        <translation>{0} avvisi</translation>
    </message>
    <message>
        <source>1 question</source>
        <translation>1 domanda</translation>
    </message>
    <message>
        <source>{0} questions</source>
        <translation>{0} domande</translation>
    </message>
    <message>
        <source>1 note</source>
        <translation>1 nota</translation>
    </message>
    <message>
        <source>{0} notes</source>
        <translation>{0} note</translation>
    </message>
</context>
<context>
    <name>Hold</name>
    <message>
        <source>Piece</source>
        <translation>Pezzo</translation>
    </message>
    <message>
        <source>Upper alone</source>
        <translation>Tomaia da sola</translation>
    </message>
    <message>
        <source>With backing</source>
        <translation>Con rinforzo</translation>
    </message>
    <message>
        <source>Limit</source>
        <translation>Limite</translation>
    </message>
    <message>
        <source>Holds?</source>
        <translation>Tiene?</translation>
    </message>
    <message>
        <source>Pieces under the pull</source>
        <translation>Pezzi sotto il tiro</translation>
    </message>
    <message>
        <source>What the hold line gives without backing</source>
        <translation>Quanto cede la linea di tenuta senza rinforzo</translation>
    </message>
    <message>
        <source>Typed here; empty: no limit</source>
        <translation>Si scrive qui; vuoto: nessun limite</translation>
    </message>
    <message>
        <source>All backing turned by</source>
        <translation>Tutti i rinforzi girati di</translation>
    </message>
    <message>
        <source>Turn of the backing in degrees</source>
        <translation>Rotazione del rinforzo in gradi</translation>
    </message>
    <message>
        <source>by 90°</source>
        <translation>di 90°</translation>
    </message>
    <message>
        <source>No piece has a limit yet: set one for its hold line</source>
        <translation>Nessun pezzo ha ancora un limite: darne uno alla linea di tenuta</translation>
    </message>
    <message>
        <source>No limit is broken; all hold up to {0}° off the tight direction</source>
        <translation>Nessun limite superato; tutto tiene fino a {0}° dal senso rigido</translation>
    </message>
    <message>
        <source>Cloth</source>
        <translation>Tessuto</translation>
    </message>
    <message>
        <source>g/m²</source>
        <translation>g/m²</translation>
    </message>
    <message>
        <source>Worst piece</source>
        <translation>Pezzo peggiore</translation>
    </message>
    <message>
        <source>Gives</source>
        <translation>Cede</translation>
    </message>
    <message>
        <source>Cloths compared</source>
        <translation>Tessuti a confronto</translation>
    </message>
    <message>
        <source>The piece nearest to its limit</source>
        <translation>Il pezzo più vicino al suo limite</translation>
    </message>
    <message>
        <source>Cloth in the pieces only, without waste and ends</source>
        <translation>Solo il tessuto nei pezzi, senza sfrido e testate</translation>
    </message>
    <message>
        <source>Give against the turn on the roll</source>
        <translation>Cedimento secondo la rotazione sul rotolo</translation>
    </message>
    <message>
        <source>Breaks its limit: {0}</source>
        <translation>Supera il limite: {0}</translation>
    </message>
    <message>
        <source>No limit is broken</source>
        <translation>Nessun limite superato</translation>
    </message>
    <message>
        <source>no limit set</source>
        <translation>nessun limite</translation>
    </message>
    <message>
        <source>trial decides</source>
        <translation>decide la prova</translation>
    </message>
    <message>
        <source>holds</source>
        <translation>tiene</translation>
    </message>
    <message>
        <source>BREAKS</source>
        <translation>SUPERA</translation>
    </message>
    <message>
        <source>Chain the selected pieces</source>
        <translation>Metti in catena i pezzi selezionati</translation>
    </message>
    <message>
        <source>Hold line</source>
        <translation>Linea di tenuta</translation>
    </message>
    <message>
        <source>Permitted tilt</source>
        <translation>Inclinazione ammessa</translation>
    </message>
    <message>
        <source>Its length along the pull axis, drawn on the Draft desk</source>
        <translation>La sua lunghezza lungo l&apos;asse di tiro, tracciata al banco Modello</translation>
    </message>
    <message>
        <source>From shear blocked to shear free: the actual value lies between</source>
        <translation>Da scorrimento bloccato a scorrimento libero: il valore reale sta in mezzo</translation>
    </message>
    <message>
        <source>Tilt on the roll up to which the limit is kept: what may be permitted in the lay</source>
        <translation>Inclinazione sul rotolo fino alla quale il limite è rispettato: quanto si può ammettere nel piazzamento</translation>
    </message>
    <message>
        <source>Other cloths in place of the first, for the same limits</source>
        <translation>Altri tessuti al posto del primo, per gli stessi limiti</translation>
    </message>
    <message>
        <source>Make it the first cloth</source>
        <translation>Usa come primo tessuto</translation>
    </message>
    <message>
        <source>Pieces that the pull stretches one after another, heel to throat: what they give adds up</source>
        <translation>Pezzi che il tiro allunga uno dopo l&apos;altro, dal tallone allo scollo: i loro cedimenti si sommano</translation>
    </message>
    <message>
        <source>Take the chain apart</source>
        <translation>Sciogli la catena</translation>
    </message>
    <message>
        <source>Net cost per pair</source>
        <translation>Costo netto al paio</translation>
    </message>
    <message>
        <source>Working out …</source>
        <translation>Calcolo in corso …</translation>
    </message>
    <message>
        <source>The trial decides: {0}</source>
        <translation>Decide la prova: {0}</translation>
    </message>
    <message>
        <source>with the register&apos;s cloths</source>
        <translation>con i tessuti del registro</translation>
    </message>
    <message>
        <source>It could not be judged; the problem was reported.</source>
        <translation>Non è stato possibile giudicarlo; il problema è stato segnalato.</translation>
    </message>
</context>
<context>
    <name>Import</name>
    <message>
        <source>{0}: left out, {1}</source>
        <translation>{0}: tralasciato, {1}</translation>
    </message>
    <message>
        <source>Unit of the drawing</source>
        <translation>Unità del disegno</translation>
    </message>
    <message>
        <source>{0} does not say for certain in which unit it is drawn.</source>
        <translation>{0} non dice con certezza in quale unità è disegnato.</translation>
    </message>
    <message>
        <source>The whole drawing would be:</source>
        <translation>L&apos;intero disegno sarebbe:</translation>
    </message>
    <message>
        <source>Size drawn</source>
        <translation>Misura disegnata</translation>
    </message>
    <message>
        <source>{0} names no size. Which one is drawn?</source>
        <translation>{0} non indica la misura. Quale è disegnata?</translation>
    </message>
    <message>
        <source>Size</source>
        <translation>Misura</translation>
    </message>
    <message>
        <source>Size system</source>
        <translation>Sistema di misure</translation>
    </message>
    <message>
        <source>Frame of the sheet</source>
        <translation>Cornice del foglio</translation>
    </message>
    <message>
        <source>In {0} a rectangle lies round the pieces. What is it?</source>
        <translation>In {0} un rettangolo circonda i pezzi. Che cos&apos;è?</translation>
    </message>
    <message>
        <source>The frame of the sheet: leave it out</source>
        <translation>La cornice del foglio: tralasciarla</translation>
    </message>
    <message>
        <source>A piece: what lies in it is cut out</source>
        <translation>Un pezzo: ciò che contiene è ritagliato</translation>
    </message>
    <message>
        <source>reading the file</source>
        <translation>lettura del file</translation>
    </message>
    <message>
        <source>joining the lines</source>
        <translation>unione delle linee</translation>
    </message>
    <message>
        <source>reading the blocks</source>
        <translation>lettura dei blocchi</translation>
    </message>
    <message>
        <source>sorting outlines and cut-outs</source>
        <translation>ricerca di contorni e ritagli</translation>
    </message>
    <message>
        <source>Reading {0}</source>
        <translation>Lettura di {0}</translation>
    </message>
    <message>
        <source>Cancel</source>
        <translation>Annulla</translation>
    </message>
    <message>
        <source>Reading the drawing</source>
        <translation>Lettura del disegno</translation>
    </message>
    <message>
        <source>Reading {0}: {1}</source>
        <translation>Lettura di {0}: {1}</translation>
    </message>
</context>
<context>
    <name>Keys</name>
    <message>
        <source>Zoom to the pointer</source>
        <translation>Zoom verso il puntatore</translation>
    </message>
    <message>
        <source>Wheel</source>
        <translation>Rotella</translation>
    </message>
    <message>
        <source>Move the board</source>
        <translation>Sposta il tavolo</translation>
    </message>
    <message>
        <source>Middle button, or Ctrl+Shift and drag</source>
        <translation>Tasto centrale, o Ctrl+Maiusc e trascinare</translation>
    </message>
    <message>
        <source>Move the board sideways</source>
        <translation>Sposta il tavolo di lato</translation>
    </message>
    <message>
        <source>Shift and wheel</source>
        <translation>Maiusc e rotella</translation>
    </message>
    <message>
        <source>Add to the selection</source>
        <translation>Aggiungi alla selezione</translation>
    </message>
    <message>
        <source>Shift and click</source>
        <translation>Maiusc e clic</translation>
    </message>
    <message>
        <source>Snap to whole steps while dragging</source>
        <translation>Aggancia a passi interi trascinando</translation>
    </message>
    <message>
        <source>Hold Ctrl</source>
        <translation>Tenere Ctrl</translation>
    </message>
    <message>
        <source>Keys</source>
        <translation>Tasti</translation>
    </message>
    <message>
        <source>Find an action or a key</source>
        <translation>Cerca un comando o un tasto</translation>
    </message>
    <message>
        <source>Action</source>
        <translation>Comando</translation>
    </message>
    <message>
        <source>What it does</source>
        <translation>Che cosa fa</translation>
    </message>
    <message>
        <source>With the mouse</source>
        <translation>Con il mouse</translation>
    </message>
</context>
<context>
    <name>Lay</name>
    <message>
        <source>Select a piece that is not pinned.</source>
        <translation>Selezionare un pezzo non fissato.</translation>
    </message>
    <message>
        <source>Sliding {0} pieces… (Esc gives it up)</source>
        <translation>{0} pezzi scorrono… (Esc per rinunciare)</translation>
    </message>
    <message>
        <source>It cannot slide that way.</source>
        <translation>Da quella parte non può scorrere.</translation>
    </message>
    <message>
        <source>Select two pieces to swap.</source>
        <translation>Selezionare due pezzi da scambiare.</translation>
    </message>
    <message>
        <source>There is no fault.</source>
        <translation>Nessun errore.</translation>
    </message>
    <message>
        <source>Folder for the lay&apos;s files</source>
        <translation>Cartella per i file del piazzamento</translation>
    </message>
    <message>
        <source>This lay breaks a hold limit</source>
        <translation>Questo piazzamento supera un limite di tenuta</translation>
    </message>
    <message>
        <source>the lay is older than its pieces ({0})</source>
        <translation>il piazzamento è più vecchio dei suoi pezzi ({0})</translation>
    </message>
    <message>
        <source>Nothing is laid yet</source>
        <translation>Non è ancora piazzato nulla</translation>
    </message>
    <message>
        <source>fill the roll first</source>
        <translation>riempire prima il rotolo</translation>
    </message>
    <message>
        <source>the lay has {0} faults</source>
        <translation>il piazzamento ha {0} errori</translation>
    </message>
    <message>
        <source>fill the roll again</source>
        <translation>riempire di nuovo il rotolo</translation>
    </message>
    <message>
        <source>correct them (listed beside the roll); a lay with faults is never exported</source>
        <translation>correggerli (elenco accanto al rotolo); un piazzamento con errori non si esporta mai</translation>
    </message>
    <message>
        <source>Reason for cutting it all the same (printed on the papers):</source>
        <translation>Motivo per tagliarlo comunque (stampato sui documenti):</translation>
    </message>
    <message>
        <source>Lay plan</source>
        <translation>Piano del piazzamento</translation>
    </message>
    <message>
        <source>Cut ticket</source>
        <translation>Bolla di taglio</translation>
    </message>
    <message>
        <source>Lay at full size</source>
        <translation>Piazzamento a grandezza naturale</translation>
    </message>
    <message>
        <source>Not written: {0}</source>
        <translation>Non scritto: {0}</translation>
    </message>
    <message>
        <source>{0} files written to {1}</source>
        <translation>{0} file scritti in {1}</translation>
    </message>
    <message>
        <source>Pairs of each size</source>
        <translation>Paia di ogni misura</translation>
    </message>
    <message>
        <source>Cloth</source>
        <translation>Tessuto</translation>
    </message>
    <message>
        <source>glue side up</source>
        <translation>colla in alto</translation>
    </message>
    <message>
        <source>face to face</source>
        <translation>faccia a faccia</translation>
    </message>
    <message>
        <source>How the plies lie</source>
        <translation>Come stanno gli strati</translation>
    </message>
    <message>
        <source>Glue side up, each ply gives both shoes; face to face, two plies give a left and a right from one shape</source>
        <translation>Con la colla in alto ogni strato dà le due scarpe; faccia a faccia, due strati danno sinistra e destra da una forma</translation>
    </message>
    <message>
        <source>Plies</source>
        <translation>Strati</translation>
    </message>
    <message>
        <source>Gap between pieces</source>
        <translation>Distanza tra i pezzi</translation>
    </message>
    <message>
        <source>Minimum distance between two pieces; empty: the house rule</source>
        <translation>Distanza minima tra due pezzi; vuoto: la regola della casa</translation>
    </message>
    <message>
        <source>Gap</source>
        <translation>Distanza</translation>
    </message>
    <message>
        <source>Maximum length of the lay</source>
        <translation>Lunghezza massima del piazzamento</translation>
    </message>
    <message>
        <source>The table’s length; empty is as long as it takes</source>
        <translation>La lunghezza del tavolo; vuoto: quanto serve</translation>
    </message>
    <message>
        <source>Max. length</source>
        <translation>Lungh. max</translation>
    </message>
    <message>
        <source>Seconds to search</source>
        <translation>Secondi di ricerca</translation>
    </message>
    <message>
        <source>Seconds</source>
        <translation>Secondi</translation>
    </message>
    <message>
        <source>{0} pairs of size {1} are ordered</source>
        <translation>{0} paia ordinate della misura {1}</translation>
    </message>
    <message>
        <source>{0} in this lay, {1} ordered</source>
        <translation>{0} in questo piazzamento, {1} ordinate</translation>
    </message>
    <message>
        <source>Pairs of size {0}</source>
        <translation>Paia della misura {0}</translation>
    </message>
    <message>
        <source>{0} overlap by {1}</source>
        <translation>{0} si sovrappongono di {1}</translation>
    </message>
    <message>
        <source>{0}: the gap is {1} short</source>
        <translation>{0}: mancano {1} alla distanza</translation>
    </message>
    <message>
        <source>{0}: {1} beyond the usable field</source>
        <translation>{0}: {1} oltre il campo utile</translation>
    </message>
    <message>
        <source>{0} lies {1} on a flaw</source>
        <translation>{0} sta per {1} su un difetto</translation>
    </message>
    <message>
        <source>{0}: {1} off the tight direction</source>
        <translation>{0}: {1} fuori dal senso rigido</translation>
    </message>
    <message>
        <source>Lays side by side</source>
        <translation>Piazzamenti affiancati</translation>
    </message>
    <message>
        <source>Name</source>
        <translation>Nome</translation>
    </message>
    <message>
        <source>Length</source>
        <translation>Lunghezza</translation>
    </message>
    <message>
        <source>Yield</source>
        <translation>Resa</translation>
    </message>
    <message>
        <source>Faults</source>
        <translation>Errori</translation>
    </message>
    <message>
        <source>Selected</source>
        <translation>Selezionato</translation>
    </message>
    <message>
        <source>Side table</source>
        <translation>Tavolo a lato</translation>
    </message>
    <message>
        <source>Asked for, but not on the roll: drag one to its place, or double-click to lay it at the end</source>
        <translation>Richiesti, ma non sul rotolo: trascinarne uno al suo posto, o doppio clic per metterlo in fondo</translation>
    </message>
    <message>
        <source>Nothing: click a piece, or sweep over several.</source>
        <translation>Niente: clic su un pezzo, o passare su più pezzi.</translation>
    </message>
    <message>
        <source>{0} pieces</source>
        <translation>{0} pezzi</translation>
    </message>
    <message>
        <source>{0}° off the tight direction</source>
        <translation>{0}° fuori dal senso rigido</translation>
    </message>
    <message>
        <source>pinned</source>
        <translation>fissato</translation>
    </message>
    <message>
        <source>The roll with its lay</source>
        <translation>Il rotolo con il suo piazzamento</translation>
    </message>
    <message>
        <source>Nothing is laid yet: fill the roll, or drag pieces here from the side table</source>
        <translation>Ancora nulla di piazzato: riempire il rotolo, o trascinare qui i pezzi dal tavolo a lato</translation>
    </message>
    <message>
        <source>The roll is being filled.</source>
        <translation>Il rotolo si sta riempiendo.</translation>
    </message>
    <message>
        <source>The pieces are being derived ...</source>
        <translation>Si derivano i pezzi ...</translation>
    </message>
    <message>
        <source>{0} missing</source>
        <translation>{0} mancanti</translation>
    </message>
    <message>
        <source>none</source>
        <translation>nessuno</translation>
    </message>
    <message>
        <source>nothing laid</source>
        <translation>nulla di piazzato</translation>
    </message>
    <message>
        <source>yield {0}</source>
        <translation>resa {0}</translation>
    </message>
    <message>
        <source>1 fault</source>
        <translation>1 errore</translation>
    </message>
    <message>
        <source>{0} faults</source>
        <translation>{0} errori</translation>
    </message>
    <message>
        <source>a first lay</source>
        <translation>un primo piazzamento</translation>
    </message>
    <message>
        <source>pieces in other orders</source>
        <translation>pezzi in altri ordini</translation>
    </message>
    <message>
        <source>pieces in rows</source>
        <translation>pezzi in file</translation>
    </message>
    <message>
        <source>searching for a shorter lay</source>
        <translation>si cerca un piazzamento più corto</translation>
    </message>
    <message>
        <source>compacting</source>
        <translation>si compatta</translation>
    </message>
    <message>
        <source>shortening the lay</source>
        <translation>si accorcia il piazzamento</translation>
    </message>
    <message>
        <source>a section that repeats {0} times</source>
        <translation>una sezione che si ripete {0} volte</translation>
    </message>
    <message>
        <source>the longest piece needs that length</source>
        <translation>serve al pezzo più lungo</translation>
    </message>
    <message>
        <source>pieces that cannot lie side by side need that length</source>
        <translation>serve a pezzi che non stanno affiancati</translation>
    </message>
    <message>
        <source>the area of its pieces needs that length</source>
        <translation>serve per l&apos;area dei pezzi</translation>
    </message>
    <message>
        <source>Time is up; filling again continues from this lay and may shorten it.</source>
        <translation>Il tempo è scaduto; riempire di nuovo continua da questo piazzamento e può accorciarlo.</translation>
    </message>
    <message>
        <source>What is to be laid has changed, so the search was stopped: fill the roll again.</source>
        <translation>Ciò che va piazzato è cambiato, perciò la ricerca è terminata: riempire di nuovo il rotolo.</translation>
    </message>
    <message>
        <source>shortening around what is pinned</source>
        <translation>si accorcia attorno ai pezzi fissati</translation>
    </message>
    <message>
        <source>moving pieces from the end into gaps</source>
        <translation>pezzi dal fondo spostati nei vuoti</translation>
    </message>
    <message>
        <source>re-laying sections</source>
        <translation>si rifanno dei tratti</translation>
    </message>
    <message>
        <source>part {0} of {1}</source>
        <translation>parte {0} di {1}</translation>
    </message>
    <message>
        <source>The lay cannot be shorter: {0}.</source>
        <translation>Il piazzamento non può essere più corto: {0}.</translation>
    </message>
    <message>
        <source>The search has ended; filling again continues from this lay.</source>
        <translation>La ricerca è finita; riempire di nuovo continua da questo piazzamento.</translation>
    </message>
    <message>
        <source>A minute of search is likely to add {0} ± {1} points of yield.</source>
        <translation>Un minuto di ricerca aggiungerà probabilmente {0} ± {1} punti di resa.</translation>
    </message>
    <message>
        <source>Starting…</source>
        <translation>Avvio…</translation>
    </message>
    <message>
        <source>Fits here</source>
        <translation>Qui ci sta</translation>
    </message>
    <message>
        <source>Overlaps by {0}</source>
        <translation>Si sovrappone di {0}</translation>
    </message>
    <message>
        <source>Too close by {0}</source>
        <translation>Troppo vicino di {0}</translation>
    </message>
    <message>
        <source>The engine ended unexpectedly ({0}); try again.</source>
        <translation>Il motore di calcolo è terminato inaspettatamente ({0}); riprovare.</translation>
    </message>
    <message>
        <source>The engine could not be started.</source>
        <translation>Non è stato possibile avviare il motore di calcolo.</translation>
    </message>
    <message>
        <source>{0} along the pull, predicted by the hold line</source>
        <translation>{0} lungo il tiro, previsti dalla linea di tenuta</translation>
    </message>
    <message>
        <source>BREAKS its limit</source>
        <translation>SUPERA il suo limite</translation>
    </message>
    <message>
        <source>BREAKS the limit of {0}</source>
        <translation>SUPERA il limite di {0}</translation>
    </message>
    <message>
        <source>Lay of the run plan</source>
        <translation>Piazzamento del piano della commessa</translation>
    </message>
    <message>
        <source>1 ply</source>
        <translation>1 strato</translation>
    </message>
    <message>
        <source>{0} plies</source>
        <translation>{0} strati</translation>
    </message>
    <message>
        <source>needs the pairs {0}, at most {1} long</source>
        <translation>servono le paia {0}, lungo al massimo {1}</translation>
    </message>
    <message>
        <source>not given back yet</source>
        <translation>non ancora restituito</translation>
    </message>
    <message>
        <source>given back: locked in the plan as it is here</source>
        <translation>restituito: bloccato nel piano come si vede qui</translation>
    </message>
    <message>
        <source>changed since it was given back; the plan holds it as it was then</source>
        <translation>cambiato dopo la restituzione; il piano lo tiene com’era allora</translation>
    </message>
    <message>
        <source>Not given back: {0}</source>
        <translation>Non restituito: {0}</translation>
    </message>
    <message>
        <source>Lay {0} is given back and locked: the run plan keeps it as it is</source>
        <translation>Il piazzamento {0} è restituito e bloccato: il piano lo tiene come giace</translation>
    </message>
    <message>
        <source>The plan already has lay {0} as it is here</source>
        <translation>Il piano ha già il piazzamento {0} come giace qui</translation>
    </message>
</context>
<context>
    <name>LayAction</name>
    <message>
        <source>Lay the order</source>
        <translation>Piazza l’ordine</translation>
    </message>
    <message>
        <source>This lay holds all pairs ordered; then fill the roll</source>
        <translation>Questo piazzamento comprende tutte le paia ordinate; poi riempire il rotolo</translation>
    </message>
    <message>
        <source>Open an order…</source>
        <translation>Apri un ordine…</translation>
    </message>
    <message>
        <source>Pairs by size from a CSV file or a spreadsheet</source>
        <translation>Paia per misura da un file CSV o da un foglio di calcolo</translation>
    </message>
    <message>
        <source>Fill the roll</source>
        <translation>Riempi il rotolo</translation>
    </message>
    <message>
        <source>Lay all pieces of the pairs; pinned pieces stay where they are</source>
        <translation>Piazza tutti i pezzi delle paia; quelli fissati restano dove sono</translation>
    </message>
    <message>
        <source>Go on improving</source>
        <translation>Continua a migliorare</translation>
    </message>
    <message>
        <source>Stop and keep the best</source>
        <translation>Ferma e tieni il migliore</translation>
    </message>
    <message>
        <source>At once; the best lay found so far stays</source>
        <translation>Subito; resta il migliore trovato finora</translation>
    </message>
    <message>
        <source>Turn by 180°</source>
        <translation>Gira di 180°</translation>
    </message>
    <message>
        <source>Turn left by 1°</source>
        <translation>Gira a sinistra di 1°</translation>
    </message>
    <message>
        <source>Off the tight direction the cloth gives more; the board says by how many degrees</source>
        <translation>Fuori dal senso rigido il tessuto cede di più; il tavolo dice di quanti gradi</translation>
    </message>
    <message>
        <source>Turn right by 1°</source>
        <translation>Gira a destra di 1°</translation>
    </message>
    <message>
        <source>Pin or unpin</source>
        <translation>Fissa o libera</translation>
    </message>
    <message>
        <source>A pinned piece stays where it lies, whatever is filled round it</source>
        <translation>Un pezzo fissato resta dov&apos;è, qualunque cosa gli si piazzi attorno</translation>
    </message>
    <message>
        <source>Lift to the side table</source>
        <translation>Metti sul tavolo a lato</translation>
    </message>
    <message>
        <source>Off the roll; it waits on the side table and is dragged or double-clicked back</source>
        <translation>Via dal rotolo; aspetta sul tavolo a lato e torna trascinandolo o con doppio clic</translation>
    </message>
    <message>
        <source>Swap two pieces</source>
        <translation>Scambia due pezzi</translation>
    </message>
    <message>
        <source>About its own centre; the pull axis stays on the tight direction</source>
        <translation>Attorno al proprio centro; l&apos;asse di tiro resta nel senso rigido</translation>
    </message>
    <message>
        <source>Goes on from this lay in the background until it is stopped; pinned pieces stay, each shorter lay is shown</source>
        <translation>Continua da questo piazzamento, in sottofondo, finché non si ferma; i pezzi fissati restano, ogni piazzamento più corto viene mostrato</translation>
    </message>
    <message>
        <source>Each in the other&apos;s place, centre on centre</source>
        <translation>Ognuno al posto dell&apos;altro, centro su centro</translation>
    </message>
    <message>
        <source>Nudge towards the start</source>
        <translation>Sposta verso l&apos;inizio</translation>
    </message>
    <message>
        <source>Nudge towards the end</source>
        <translation>Sposta verso la fine</translation>
    </message>
    <message>
        <source>Nudge up</source>
        <translation>Sposta in su</translation>
    </message>
    <message>
        <source>Nudge down</source>
        <translation>Sposta in giù</translation>
    </message>
    <message>
        <source>As far as it goes without coming closer to a piece or an edge than the gap</source>
        <translation>Fin dove arriva senza avvicinarsi a un pezzo o a un bordo più della distanza</translation>
    </message>
    <message>
        <source>Slide to the start until it touches</source>
        <translation>Scorri verso l&apos;inizio fino a toccare</translation>
    </message>
    <message>
        <source>Slide to the end until it touches</source>
        <translation>Scorri verso la fine fino a toccare</translation>
    </message>
    <message>
        <source>Slide up until it touches</source>
        <translation>Scorri in su fino a toccare</translation>
    </message>
    <message>
        <source>Slide down until it touches</source>
        <translation>Scorri in giù fino a toccare</translation>
    </message>
    <message>
        <source>All pieces</source>
        <translation>Tutti i pezzi</translation>
    </message>
    <message>
        <source>Deselect</source>
        <translation>Deseleziona</translation>
    </message>
    <message>
        <source>Give back to the plan</source>
        <translation>Restituisci al piano</translation>
    </message>
    <message>
        <source>This lay was opened out of the run plan: it is verified, put back there and locked</source>
        <translation>Questo piazzamento viene dal piano della commessa: viene verificato, rimesso nel piano e bloccato</translation>
    </message>
    <message>
        <source>Show selection</source>
        <translation>Mostra la selezione</translation>
    </message>
    <message>
        <source>Next fault</source>
        <translation>Errore seguente</translation>
    </message>
    <message>
        <source>Keep and try another lay</source>
        <translation>Tieni e prova un altro piazzamento</translation>
    </message>
    <message>
        <source>A copy beside this one, to be compared</source>
        <translation>Una copia accanto, da confrontare</translation>
    </message>
    <message>
        <source>Remove this lay</source>
        <translation>Togli questo piazzamento</translation>
    </message>
    <message>
        <source>Next lay</source>
        <translation>Piazzamento seguente</translation>
    </message>
    <message>
        <source>Previous lay</source>
        <translation>Piazzamento precedente</translation>
    </message>
    <message>
        <source>Write lay plan and cutter files…</source>
        <translation>Scrivi piano del piazzamento e file per il taglio…</translation>
    </message>
    <message>
        <source>PDF, DXF, SVG, plotter file and cut ticket; only for a lay without faults</source>
        <translation>PDF, DXF, SVG, file per plotter e bolla di taglio; solo per un piazzamento senza errori</translation>
    </message>
    <message>
        <source>Show the lay</source>
        <translation>Mostra il piazzamento</translation>
    </message>
    <message>
        <source>Zoom in</source>
        <translation>Ingrandisci</translation>
    </message>
    <message>
        <source>Zoom out</source>
        <translation>Rimpicciolisci</translation>
    </message>
</context>
<context>
    <name>Measure</name>
    <message>
        <source>Measures of the pieces</source>
        <translation>Misure dei pezzi</translation>
    </message>
    <message>
        <source>Seams</source>
        <translation>Cuciture</translation>
    </message>
    <message>
        <source>Sewn</source>
        <translation>Cuciti</translation>
    </message>
    <message>
        <source>Length</source>
        <translation>Lunghezza</translation>
    </message>
    <message>
        <source>Difference</source>
        <translation>Differenza</translation>
    </message>
    <message>
        <source>Edges that are sewn together</source>
        <translation>Bordi cuciti insieme</translation>
    </message>
    <message>
        <source>Pair</source>
        <translation>Accoppia</translation>
    </message>
    <message>
        <source>Keep the proposed pair with the style</source>
        <translation>Conserva la coppia proposta con il modello</translation>
    </message>
    <message>
        <source>Take apart</source>
        <translation>Separa</translation>
    </message>
    <message>
        <source>Ease</source>
        <translation>Lentezza</translation>
    </message>
    <message>
        <source>How much longer the first edge is meant to be</source>
        <translation>Quanto più lungo deve essere il primo bordo</translation>
    </message>
    <message>
        <source>ease</source>
        <translation>lentezza</translation>
    </message>
    <message>
        <source>Compare</source>
        <translation>Confronto</translation>
    </message>
    <message>
        <source>Compare with</source>
        <translation>Confronta con</translation>
    </message>
    <message>
        <source>with</source>
        <translation>con</translation>
    </message>
    <message>
        <source>Piece</source>
        <translation>Pezzo</translation>
    </message>
    <message>
        <source>Apart</source>
        <translation>Distanza</translation>
    </message>
    <message>
        <source>Area</source>
        <translation>Area</translation>
    </message>
    <message>
        <source>How far the pieces part</source>
        <translation>Quanto distano i pezzi</translation>
    </message>
    <message>
        <source>{0}, size {1}: {2}, {3} × {4}</source>
        <translation>{0}, misura {1}: {2}, {3} × {4}</translation>
    </message>
    <message>
        <source>Edge</source>
        <translation>Bordo</translation>
    </message>
    <message>
        <source>Cut ({0})</source>
        <translation>Taglio ({0})</translation>
    </message>
    <message>
        <source>Net ({0})</source>
        <translation>Netto ({0})</translation>
    </message>
    <message>
        <source>Setback</source>
        <translation>Arretramento</translation>
    </message>
    <message>
        <source>All pieces, size {0}</source>
        <translation>Tutti i pezzi, misura {0}</translation>
    </message>
    <message>
        <source>Upper ({0})</source>
        <translation>Tomaia ({0})</translation>
    </message>
    <message>
        <source>Backing</source>
        <translation>Rinforzo</translation>
    </message>
    <message>
        <source>nothing</source>
        <translation>niente</translation>
    </message>
    <message>
        <source>another version…</source>
        <translation>un&apos;altra versione…</translation>
    </message>
    <message>
        <source>Another version of the style</source>
        <translation>Un&apos;altra versione del modello</translation>
    </message>
    <message>
        <source>{0} has no piece of these names.</source>
        <translation>{0} non ha pezzi con questi nomi.</translation>
    </message>
</context>
<context>
    <name>Order</name>
    <message>
        <source>Type pairs, or paste sizes and pairs from a spreadsheet</source>
        <translation>Digitare le paia, o incollare misure e paia da un foglio di calcolo</translation>
    </message>
</context>
<context>
    <name>Piece</name>
    <message>
        <source>left</source>
        <translation>sinistro</translation>
    </message>
    <message>
        <source>right</source>
        <translation>destro</translation>
    </message>
</context>
<context>
    <name>Print</name>
    <message>
        <source>Print</source>
        <translation>Stampa</translation>
    </message>
    <message>
        <source>Paper</source>
        <translation>Documento</translation>
    </message>
    <message>
        <source>Sheet of paper</source>
        <translation>Foglio</translation>
    </message>
    <message>
        <source>Sizes</source>
        <translation>Misure</translation>
    </message>
    <message>
        <source>all sizes</source>
        <translation>tutte le misure</translation>
    </message>
    <message>
        <source>Left or right</source>
        <translation>Sinistro o destro</translation>
    </message>
    <message>
        <source>left</source>
        <translation>sinistro</translation>
    </message>
    <message>
        <source>right</source>
        <translation>destro</translation>
    </message>
    <message>
        <source>both</source>
        <translation>entrambi</translation>
    </message>
    <message>
        <source>Sheet</source>
        <translation>Foglio</translation>
    </message>
    <message>
        <source>Previous sheet</source>
        <translation>Foglio precedente</translation>
    </message>
    <message>
        <source>Next sheet</source>
        <translation>Foglio seguente</translation>
    </message>
    <message>
        <source>Print…</source>
        <translation>Stampa…</translation>
    </message>
    <message>
        <source>Save as PDF…</source>
        <translation>Salva come PDF…</translation>
    </message>
    <message>
        <source>Close</source>
        <translation>Chiudi</translation>
    </message>
    <message>
        <source>The sheets are being made …</source>
        <translation>I fogli vengono preparati …</translation>
    </message>
    <message>
        <source>The sheets could not be made; the problem was reported.</source>
        <translation>Non è stato possibile preparare i fogli; il problema è stato segnalato.</translation>
    </message>
    <message>
        <source>Full size: in the printer&apos;s dialog choose 100 % (“actual size”), never “fit to page”, and measure the 100 mm square or lines on the print before anything is cut.</source>
        <translation>Grandezza naturale: nella finestra della stampante scegliere 100 % («dimensioni effettive»), mai «adatta alla pagina», e misurare sulla stampa il quadrato o le linee di 100 mm prima di tagliare.</translation>
    </message>
    <message>
        <source>Larger than the sheet: printed in tiles to be stuck together.</source>
        <translation>Più grande del foglio: stampato in parti da incollare insieme.</translation>
    </message>
    <message>
        <source>The printer did not accept it. Check that it is on, or save the paper as PDF.</source>
        <translation>La stampante non l&apos;ha accettato. Controllare che sia accesa, oppure salvare il documento come PDF.</translation>
    </message>
    <message>
        <source>Measure the 100 mm square or lines before cutting.</source>
        <translation>Misurare il quadrato o le linee di 100 mm prima di tagliare.</translation>
    </message>
    <message>
        <source>Shrunk to {0} of its size to fit the sheet.</source>
        <translation>Ridotto al {0} della sua misura per stare nel foglio.</translation>
    </message>
    <message>
        <source>sheet {0} of {1}</source>
        <translation>foglio {0} di {1}</translation>
    </message>
    <message>
        <source>{0}: {1} sheets sent to the printer</source>
        <translation>{0}: {1} fogli inviati alla stampante</translation>
    </message>
    <message>
        <source>PDF (*.pdf)</source>
        <translation>PDF (*.pdf)</translation>
    </message>
    <message>
        <source>Save as PDF</source>
        <translation>Salva come PDF</translation>
    </message>
    <message>
        <source>Written: {0}</source>
        <translation>Scritto: {0}</translation>
    </message>
    <message>
        <source>Preview</source>
        <translation>Anteprima</translation>
    </message>
</context>
<context>
    <name>Problem</name>
    <message>
        <source>This could not be done</source>
        <translation>Non è stato possibile</translation>
    </message>
    <message>
        <source>File</source>
        <translation>File</translation>
    </message>
    <message>
        <source>Piece</source>
        <translation>Pezzo</translation>
    </message>
    <message>
        <source>Remedy</source>
        <translation>Rimedio</translation>
    </message>
    <message>
        <source>Close</source>
        <translation>Chiudi</translation>
    </message>
    <message>
        <source>Details</source>
        <translation>Dettagli</translation>
    </message>
    <message>
        <source>Copy details</source>
        <translation>Copia dettagli</translation>
    </message>
    <message>
        <source>the program met something it did not expect: {0}</source>
        <translation>il programma ha incontrato qualcosa di imprevisto: {0}</translation>
    </message>
    <message>
        <source>Your work is kept and you can go on. Please copy the details into a report.</source>
        <translation>Il lavoro è conservato e si può continuare. Copiare i dettagli in una segnalazione.</translation>
    </message>
</context>
<context>
    <name>Pull</name>
    <message>
        <source>Upper alone</source>
        <translation>Tomaia da sola</translation>
    </message>
    <message>
        <source>Backed as drafted</source>
        <translation>Rinforzata come disegnata</translation>
    </message>
    <message>
        <source>Cloth turned by 90°</source>
        <translation>Tessuto girato di 90°</translation>
    </message>
    <message>
        <source>waiting until the changes are made</source>
        <translation>attende che il modello sia fermo</translation>
    </message>
    <message>
        <source>mesh</source>
        <translation>reticolo</translation>
    </message>
    <message>
        <source>upper alone</source>
        <translation>tomaia da sola</translation>
    </message>
    <message>
        <source>backed as drafted</source>
        <translation>con rinforzo come disegnato</translation>
    </message>
    <message>
        <source>cloth turned by 90°</source>
        <translation>tessuto girato di 90°</translation>
    </message>
    <message>
        <source>map</source>
        <translation>mappa</translation>
    </message>
    <message>
        <source>large strain</source>
        <translation>grandi deformazioni</translation>
    </message>
    <message>
        <source>tension field</source>
        <translation>campo di sola trazione</translation>
    </message>
    <message>
        <source>No hold line is drawn from heel to throat, so the line model has no figure to set beside these.</source>
        <translation>Non è tracciata nessuna linea di tenuta dal tallone allo scollo, quindi la linea non ha cifre da mettere accanto a queste.</translation>
    </message>
    <message>
        <source>Line and field answer the same question for {0}. The line takes a strip of one width from heel to throat under the pull per mm of the toe edge; the field takes the whole piece, with bare margins where the backing stops short.</source>
        <translation>Linea e campo rispondono alla stessa domanda per {0}. La linea prende una striscia di larghezza costante dal tallone allo scollo, sotto il tiro per mm del bordo in punta; il campo prende tutto il pezzo, con i margini scoperti dove il rinforzo si ferma prima.</translation>
    </message>
    <message>
        <source>Between heel and throat the piece bears {0} times the line’s force per mm, by its widths.</source>
        <translation>Fra tallone e scollo, per le sue larghezze, il pezzo porta {0} volte la forza per mm della linea.</translation>
    </message>
    <message>
        <source>The throat gives less than the line says: the pull runs past it into the wide parts beside it.</source>
        <translation>Lo scollo cede meno di quanto dice la linea: il tiro gli passa accanto, nelle parti larghe.</translation>
    </message>
    <message>
        <source>More than half of the area is pushed: drawn flat, the piece bends in its plane, which the last does not let it do. Here the line is nearer to the job.</source>
        <translation>Oltre metà dell’area è compressa: disteso in piano, il pezzo si flette nel suo piano, cosa che la forma non gli lascia fare. Qui la linea è più vicina al lavoro.</translation>
    </message>
    <message>
        <source>The lasting trial says which of them to trust.</source>
        <translation>La prova di montaggio dice a quale credere.</translation>
    </message>
    <message>
        <source>These figures follow the hold line, a strip of one width. The page Pull (Alt+6) takes the whole piece, its narrow wings and bare margins, and mostly gives more; it shows both side by side.</source>
        <translation>Queste cifre seguono la linea di tenuta, una striscia di larghezza costante. La pagina Tiro (Alt+6) prende tutto il pezzo, con le ali strette e i margini scoperti, e per lo più dà di più; le mostra entrambe.</translation>
    </message>
    <message>
        <source>{0}: {1}, by the line {2}</source>
        <translation>{0}: {1}, secondo la linea {2}</translation>
    </message>
    <message>
        <source>The field puts the throat of {0} elsewhere.</source>
        <translation>Il campo mette altrove lo scollo di {0}.</translation>
    </message>
    <message>
        <source>Stop</source>
        <translation>Ferma</translation>
    </message>
    <message>
        <source>At the edge of the backing the glue passes so much force per mm of edge, back into the upper; the peel test tells whether the bond bears it.</source>
        <translation>Al bordo del rinforzo la colla passa alla tomaia questa forza per mm di bordo; la prova di distacco dice se l’incollaggio la regge.</translation>
    </message>
    <message>
        <source>A flat model: no last, no friction, no relaxation. Dashed: the throat’s mark; red: where it goes; fine dashes: the backing, heavy where prone to peel. Figures are ranges. The strip test and the lasting trial decide.</source>
        <translation>Un modello piano: senza forma, attrito né rilassamento. Tratteggio: il segno dello scollo; rosso: dove va; tratteggio fine: il rinforzo, marcato dove tende a staccarsi. Le cifre sono intervalli. Decidono la prova su strisce e la prova di montaggio.</translation>
    </message>
    <message>
        <source>Case of the third picture</source>
        <translation>Caso della terza figura</translation>
    </message>
    <message>
        <source>How many times the deformation is drawn</source>
        <translation>Quante volte la deformazione è disegnata</translation>
    </message>
    <message>
        <source>Scale of the strain</source>
        <translation>Scala dell&apos;allungamento</translation>
    </message>
    <message>
        <source>Side lasting edges held</source>
        <translation>Bordi di montaggio laterali fermi</translation>
    </message>
    <message>
        <source>Large strain and wrinkles</source>
        <translation>Grandi deformazioni e grinze</translation>
    </message>
    <message>
        <source>The second level: strain as large as leather’s, and sheets that wrinkle instead of being pushed. Slower.</source>
        <translation>Il secondo livello: deformazioni grandi come quelle della pelle, e fogli che fanno grinze invece di comprimersi. Più lento.</translation>
    </message>
    <message>
        <source>Other cloths</source>
        <translation>Altri tessuti</translation>
    </message>
    <message>
        <source>The style’s and the register’s in place of the first, as further cases</source>
        <translation>Quelli del modello e del registro al posto del primo, come altri casi</translation>
    </message>
    <message>
        <source>Work it out again</source>
        <translation>Calcola di nuovo</translation>
    </message>
    <message>
        <source>{0} elements, halving them moved the throat by {1} %</source>
        <translation>{0} elementi; dimezzarli ha spostato lo scollo del {1} %</translation>
    </message>
    <message>
        <source>stopped</source>
        <translation>fermato</translation>
    </message>
    <message>
        <source>throat moves {0}; by the line {1}</source>
        <translation>spostamento dello scollo {0}; secondo la linea {1}</translation>
    </message>
    <message>
        <source>{0} does not settle</source>
        <translation>{0}: non converge</translation>
    </message>
    <message>
        <source>The pull over {0}, {1} N/mm</source>
        <translation>Il tiro su {0}, {1} N/mm</translation>
    </message>
    <message>
        <source>Deformation drawn, times</source>
        <translation>Deformazione disegnata, volte</translation>
    </message>
    <message>
        <source>Toe pulled by pincers</source>
        <translation>Punta tirata a pinze</translation>
    </message>
    <message>
        <source>working out: {0} …</source>
        <translation>in calcolo: {0} …</translation>
    </message>
    <message>
        <source>throat moves {0}</source>
        <translation>spostamento dello scollo {0}</translation>
    </message>
    <message>
        <source>{0} to {1}</source>
        <translation>da {0} a {1}</translation>
    </message>
    <message>
        <source>Case</source>
        <translation>Caso</translation>
    </message>
    <message>
        <source>Throat, field</source>
        <translation>Scollo, campo</translation>
    </message>
    <message>
        <source>Throat, line</source>
        <translation>Scollo, linea</translation>
    </message>
    <message>
        <source>Toe end</source>
        <translation>Punta</translation>
    </message>
    <message>
        <source>Side edge</source>
        <translation>Bordo laterale</translation>
    </message>
    <message>
        <source>Strain</source>
        <translation>Deformazione</translation>
    </message>
    <message>
        <source>largest</source>
        <translation>massima</translation>
    </message>
    <message>
        <source>along</source>
        <translation>lungo</translation>
    </message>
    <message>
        <source>across</source>
        <translation>di traverso</translation>
    </message>
    <message>
        <source>Compressed</source>
        <translation>Compresso</translation>
    </message>
    <message>
        <source>Over 99 % of the area: at a sharp corner the peak has no limit</source>
        <translation>Sul 99 % dell’area: in un angolo vivo il picco non ha limite</translation>
    </message>
    <message>
        <source>Share of the area that is compressed in some direction</source>
        <translation>Parte dell’area che è compressa in qualche direzione</translation>
    </message>
    <message>
        <source>Position</source>
        <translation>Posizione</translation>
    </message>
    <message>
        <source>Length</source>
        <translation>Lunghezza</translation>
    </message>
    <message>
        <source>Figures of the cases</source>
        <translation>Cifre dei casi</translation>
    </message>
    <message>
        <source>How far the throat moves along the pull, over the whole piece</source>
        <translation>Quanto si sposta lo scollo lungo il tiro, su tutto il pezzo</translation>
    </message>
    <message>
        <source>The same by the hold line, as the page Hold gives it</source>
        <translation>Lo stesso secondo la linea di tenuta, come lo dà la pagina Tenuta</translation>
    </message>
    <message>
        <source>Largest principal strain: median over the area</source>
        <translation>Deformazione principale massima: mediana sull’area</translation>
    </message>
    <message>
        <source>Along the pull: median over the area</source>
        <translation>Lungo il tiro: mediana sull’area</translation>
    </message>
    <message>
        <source>Across the pull: median over the area</source>
        <translation>Di traverso al tiro: mediana sull’area</translation>
    </message>
    <message>
        <source>Prone to peel</source>
        <translation>Tende a staccarsi</translation>
    </message>
    <message>
        <source>Piece</source>
        <translation>Pezzo</translation>
    </message>
    <message>
        <source>Force N/mm</source>
        <translation>Forza N/mm</translation>
    </message>
    <message>
        <source>Shear N/mm</source>
        <translation>Taglio N/mm</translation>
    </message>
    <message>
        <source>Peel-prone places</source>
        <translation>Punti che tendono a staccarsi</translation>
    </message>
    <message>
        <source>What the glue passes per mm of the backing’s edge</source>
        <translation>Quanto passa la colla per mm di bordo del rinforzo</translation>
    </message>
    <message>
        <source>The part of it along the edge</source>
        <translation>La parte lungo il bordo</translation>
    </message>
    <message>
        <source>It could not be worked out; the problem was reported.</source>
        <translation>Non si è potuto calcolare; il problema è stato segnalato.</translation>
    </message>
</context>
<context>
    <name>Register</name>
    <message>
        <source>Cloths of the workshop</source>
        <translation>Tessuti del laboratorio</translation>
    </message>
    <message>
        <source>Cards whose name contains</source>
        <translation>Schede il cui nome contiene</translation>
    </message>
    <message>
        <source>Usable width</source>
        <translation>Altezza utile</translation>
    </message>
    <message>
        <source>Tight direction</source>
        <translation>Senso rigido</translation>
    </message>
    <message>
        <source>Strips</source>
        <translation>Strisce</translation>
    </message>
    <message>
        <source>Revision</source>
        <translation>Revisione</translation>
    </message>
    <message>
        <source>Changed by</source>
        <translation>Cambiato da</translation>
    </message>
    <message>
        <source>A copy: later changes in the register do not touch the style</source>
        <translation>Una copia: i cambi successivi nel registro non toccano il modello</translation>
    </message>
    <message>
        <source>File {0} in the register</source>
        <translation>Metti {0} nel registro</translation>
    </message>
    <message>
        <source>{0} is filed, revision {1}</source>
        <translation>{0} è nel registro, revisione {1}</translation>
    </message>
    <message>
        <source>File mine as a new revision</source>
        <translation>Registra la mia come nuova revisione</translation>
    </message>
    <message>
        <source>Cancel</source>
        <translation>Annulla</translation>
    </message>
    <message>
        <source>As a new revision: nothing is overwritten</source>
        <translation>Come nuova revisione: nulla viene sovrascritto</translation>
    </message>
    <message>
        <source>By</source>
        <translation>Da</translation>
    </message>
    <message>
        <source>Cards of the register</source>
        <translation>Schede del registro</translation>
    </message>
    <message>
        <source>Constants</source>
        <translation>Costanti</translation>
    </message>
    <message>
        <source>In this style</source>
        <translation>In questo modello</translation>
    </message>
    <message>
        <source>Kind of cards</source>
        <translation>Tipo di schede</translation>
    </message>
    <message>
        <source>Mass g/m²</source>
        <translation>Peso g/m²</translation>
    </message>
    <message>
        <source>Name</source>
        <translation>Nome</translation>
    </message>
    <message>
        <source>Revisions</source>
        <translation>Revisioni</translation>
    </message>
    <message>
        <source>The card has changed</source>
        <translation>La scheda è cambiata</translation>
    </message>
    <message>
        <source>Upper materials of the workshop</source>
        <translation>Tomaie del laboratorio</translation>
    </message>
    <message>
        <source>What changed</source>
        <translation>Che cosa è cambiato</translation>
    </message>
    <message>
        <source>When</source>
        <translation>Quando</translation>
    </message>
    <message>
        <source>Part of a name</source>
        <translation>Parte di un nome</translation>
    </message>
    <message>
        <source>How known</source>
        <translation>Come è noto</translation>
    </message>
    <message>
        <source>Price per metre</source>
        <translation>Prezzo al metro</translation>
    </message>
    <message>
        <source>Which revision the style holds a copy of</source>
        <translation>Di quale revisione il modello ha una copia</translation>
    </message>
    <message>
        <source>Copy into the style</source>
        <translation>Copia nel modello</translation>
    </message>
    <message>
        <source>Remove from the register</source>
        <translation>Togli dal registro</translation>
    </message>
    <message>
        <source>Its revisions are kept and can be restored</source>
        <translation>Le sue revisioni restano e si possono ripristinare</translation>
    </message>
    <message>
        <source>Restore this revision</source>
        <translation>Ripristina questa revisione</translation>
    </message>
    <message>
        <source>{0} of {1} cards are shown: write part of a name to find others.</source>
        <translation>{0} schede su {1} mostrate: scrivere parte di un nome per trovarne altre.</translation>
    </message>
    <message>
        <source>removed</source>
        <translation>tolta</translation>
    </message>
    <message>
        <source>Price per yard</source>
        <translation>Prezzo alla iarda</translation>
    </message>
    <message>
        <source>{0} is removed; its revisions are kept</source>
        <translation>{0} è tolto; le sue revisioni restano</translation>
    </message>
    <message>
        <source>filed</source>
        <translation>messa nel registro</translation>
    </message>
    <message>
        <source>its own</source>
        <translation>propria</translation>
    </message>
    <message>
        <source>revision {0}</source>
        <translation>revisione {0}</translation>
    </message>
    <message>
        <source>{0} cards filed</source>
        <translation>{0} schede messe nel registro</translation>
    </message>
    <message>
        <source>No cards yet: file one of this style with the button at the right, or read a table.</source>
        <translation>Ancora nessuna scheda: metterne una di questo modello col pulsante a destra, o leggere una tabella.</translation>
    </message>
</context>
<context>
    <name>Revision</name>
    <message>
        <source>Revised drawing: {0}</source>
        <translation>Disegno rivisto: {0}</translation>
    </message>
    <message>
        <source>Pieces of the revised drawing</source>
        <translation>Pezzi del disegno rivisto</translation>
    </message>
    <message>
        <source>Names that look swapped</source>
        <translation>Nomi che sembrano scambiati</translation>
    </message>
    <message>
        <source>Names look swapped: choose</source>
        <translation>I nomi sembrano scambiati: scegliere</translation>
    </message>
    <message>
        <source>The names were swapped: match by shape</source>
        <translation>I nomi sono stati scambiati: abbina per forma</translation>
    </message>
    <message>
        <source>Update the ticked pieces</source>
        <translation>Aggiorna i pezzi spuntati</translation>
    </message>
    <message>
        <source>{0}: not in the drawing, will be removed</source>
        <translation>{0}: non è nel disegno, sarà tolto</translation>
    </message>
    <message>
        <source>Lays to be filled again: {0}</source>
        <translation>Piazzamenti da riempire di nuovo: {0}</translation>
    </message>
    <message>
        <source>Old outline dashed, new outline solid</source>
        <translation>Contorno vecchio tratteggiato, nuovo continuo</translation>
    </message>
    <message>
        <source>The names are right</source>
        <translation>I nomi sono giusti</translation>
    </message>
    <message>
        <source>{0}: added</source>
        <translation>{0}: aggiunto</translation>
    </message>
    <message>
        <source>{0}: moved by {1}, edges kept: {2}</source>
        <translation>{0}: spostato di {1}, bordi conservati: {2}</translation>
    </message>
    <message>
        <source>, {0} to confirm</source>
        <translation>, {0} da confermare</translation>
    </message>
</context>
<context>
    <name>Rules</name>
    <message>
        <source>House rules</source>
        <translation>Regole della casa</translation>
    </message>
    <message>
        <source>Used wherever an edge or a lay has no value of its own</source>
        <translation>Valgono dove un bordo o un piazzamento non ha un valore proprio</translation>
    </message>
    <message>
        <source>Use these for new styles of this workshop too</source>
        <translation>Usa queste anche per i nuovi modelli di questo laboratorio</translation>
    </message>
    <message>
        <source>Apply</source>
        <translation>Applica</translation>
    </message>
    <message>
        <source>Cancel</source>
        <translation>Annulla</translation>
    </message>
    <message>
        <source>Edge</source>
        <translation>Bordo</translation>
    </message>
    <message>
        <source>Setback</source>
        <translation>Arretramento</translation>
    </message>
    <message>
        <source>Allowance</source>
        <translation>Margine</translation>
    </message>
    <message>
        <source>Why</source>
        <translation>Perché</translation>
    </message>
    <message>
        <source>Gap between pieces</source>
        <translation>Distanza tra i pezzi</translation>
    </message>
    <message>
        <source>Margin at the selvedges</source>
        <translation>Margine alle cimose</translation>
    </message>
    <message>
        <source>Margin at the ends of a lay</source>
        <translation>Margine ai capi del piazzamento</translation>
    </message>
    <message>
        <source>End loss at each end of a ply</source>
        <translation>Perdita a ogni capo di uno strato</translation>
    </message>
    <message>
        <source>Minimum knife corner radius</source>
        <translation>Raggio d&apos;angolo minimo della lama</translation>
    </message>
    <message>
        <source>Permitted tilt, degrees</source>
        <translation>Inclinazione ammessa, gradi</translation>
    </message>
    <message>
        <source>Ends of rolls, %</source>
        <translation>Capi dei rotoli, %</translation>
    </message>
    <message>
        <source>Splices, %</source>
        <translation>Giunte, %</translation>
    </message>
    <message>
        <source>Rejects, %</source>
        <translation>Scarti, %</translation>
    </message>
</context>
<context>
    <name>Runs</name>
    <message>
        <source>Run</source>
        <translation>N.</translation>
    </message>
    <message>
        <source>Made</source>
        <translation>Data</translation>
    </message>
    <message>
        <source>Name</source>
        <translation>Nome</translation>
    </message>
    <message>
        <source>Style</source>
        <translation>Modello</translation>
    </message>
    <message>
        <source>Cloth</source>
        <translation>Tessuto</translation>
    </message>
    <message>
        <source>Pairs</source>
        <translation>Paia</translation>
    </message>
    <message>
        <source>Planned {0}</source>
        <translation>Previsti {0}</translation>
    </message>
    <message>
        <source>Used {0}</source>
        <translation>Usati {0}</translation>
    </message>
    <message>
        <source>Difference</source>
        <translation>Differenza</translation>
    </message>
    <message>
        <source>{0} per pair</source>
        <translation>{0} al paio</translation>
    </message>
    <message>
        <source>Lay</source>
        <translation>Piazzamento</translation>
    </message>
    <message>
        <source>Plies</source>
        <translation>Strati</translation>
    </message>
    <message>
        <source>Difference {0}</source>
        <translation>Differenza {0}</translation>
    </message>
    <message>
        <source>Note</source>
        <translation>Nota</translation>
    </message>
    <message>
        <source>Lays of the run and cloth used</source>
        <translation>Piazzamenti della commessa e tessuto usato</translation>
    </message>
    <message>
        <source>{0} is not a length of cloth</source>
        <translation>{0} non è una lunghezza di tessuto</translation>
    </message>
    <message>
        <source>Runs of all styles</source>
        <translation>Commesse di tutti i modelli</translation>
    </message>
    <message>
        <source>Runs</source>
        <translation>Commesse</translation>
    </message>
    <message>
        <source>Type what each lay actually took; a run enters the history when its plan is exported.</source>
        <translation>Digitare quanto ha preso davvero ogni piazzamento; una commessa entra nello storico quando se ne esporta il piano.</translation>
    </message>
    <message>
        <source>No run to estimate from yet</source>
        <translation>Ancora nessuna commessa da cui stimare</translation>
    </message>
    <message>
        <source>{0}, size {1}: about {2} per pair by {3} ({4} to {5})</source>
        <translation>{0}, misura {1}: circa {2} al paio secondo {3} (da {4} a {5})</translation>
    </message>
    <message>
        <source>1 similar run</source>
        <translation>1 commessa simile</translation>
    </message>
    <message>
        <source>{0} similar runs</source>
        <translation>{0} commesse simili</translation>
    </message>
</context>
<context>
    <name>Shell</name>
    <message>
        <source>Desks</source>
        <translation>Banchi</translation>
    </message>
    <message>
        <source>Start page</source>
        <translation>Pagina iniziale</translation>
    </message>
    <message>
        <source>Recent styles</source>
        <translation>Modelli recenti</translation>
    </message>
    <message>
        <source>None yet</source>
        <translation>Ancora nessuno</translation>
    </message>
    <message>
        <source>&amp;Undo: {0}</source>
        <translation>&amp;Annulla: {0}</translation>
    </message>
    <message>
        <source>&amp;Undo</source>
        <translation>&amp;Annulla</translation>
    </message>
    <message>
        <source>&amp;Redo: {0}</source>
        <translation>&amp;Ripeti: {0}</translation>
    </message>
    <message>
        <source>&amp;Redo</source>
        <translation>&amp;Ripeti</translation>
    </message>
    <message>
        <source>not saved yet</source>
        <translation>non ancora salvato</translation>
    </message>
    <message>
        <source>There are unsaved changes</source>
        <translation>Ci sono modifiche non salvate</translation>
    </message>
    <message>
        <source>Undone: {0}</source>
        <translation>Annullato: {0}</translation>
    </message>
    <message>
        <source>Redone: {0}</source>
        <translation>Ripetuto: {0}</translation>
    </message>
    <message>
        <source>The window will change when the running work has finished.</source>
        <translation>La finestra cambia quando il lavoro in corso è finito.</translation>
    </message>
    <message>
        <source>There is nothing to print here yet.</source>
        <translation>Qui non c&apos;è ancora nulla da stampare.</translation>
    </message>
    <message>
        <source>Everywhere</source>
        <translation>Ovunque</translation>
    </message>
    <message>
        <source>Draft, grade, lay and cost the fabric that backs a shoe upper.

Free software under the MIT licence. Uses Qt through PySide6 under the LGPL, and ezdxf, shapely, numpy, scipy, pydantic, openpyxl and reportlab under their own licences.</source>
        <translation>Disegna, sviluppa, piazza e calcola il tessuto che rinforza una tomaia.

Software libero con licenza MIT. Usa Qt tramite PySide6 con licenza LGPL, e ezdxf, shapely, numpy, scipy, pydantic, openpyxl e reportlab con le proprie licenze.</translation>
    </message>
    <message>
        <source>Work is running</source>
        <translation>Lavoro in corso</translation>
    </message>
    <message>
        <source>Stop it and close?</source>
        <translation>Fermarlo e chiudere?</translation>
    </message>
    <message>
        <source>&amp;File</source>
        <translation>&amp;File</translation>
    </message>
    <message>
        <source>&amp;Edit</source>
        <translation>&amp;Modifica</translation>
    </message>
    <message>
        <source>&amp;Work</source>
        <translation>&amp;Lavoro</translation>
    </message>
    <message>
        <source>&amp;View</source>
        <translation>&amp;Vista</translation>
    </message>
    <message>
        <source>&amp;Help</source>
        <translation>&amp;Aiuto</translation>
    </message>
    <message>
        <source>&amp;New style from DXF…</source>
        <translation>&amp;Nuovo modello da DXF…</translation>
    </message>
    <message>
        <source>Read one or several drawings and make a style of their pieces</source>
        <translation>Legge uno o più disegni e ne fa un modello</translation>
    </message>
    <message>
        <source>&amp;Open…</source>
        <translation>&amp;Apri…</translation>
    </message>
    <message>
        <source>Open a style file</source>
        <translation>Apre il file di un modello</translation>
    </message>
    <message>
        <source>Import a &amp;revised drawing…</source>
        <translation>Importa un disegno &amp;rivisto…</translation>
    </message>
    <message>
        <source>New outlines for the pieces; what was marked on the old ones stays</source>
        <translation>Nuovi contorni per i pezzi; ciò che era segnato sui vecchi resta</translation>
    </message>
    <message>
        <source>&amp;Card patterns from a picture…</source>
        <translation>&amp;Cartoni da un&apos;immagine…</translation>
    </message>
    <message>
        <source>Outlines from a photograph on the printed sheet, or from a scan, into the open style or a new one</source>
        <translation>Contorni da una fotografia sul foglio stampato, o da una scansione, nel modello aperto o in uno nuovo</translation>
    </message>
    <message>
        <source>&amp;Save</source>
        <translation>&amp;Salva</translation>
    </message>
    <message>
        <source>Write the style to its file</source>
        <translation>Scrive il modello nel suo file</translation>
    </message>
    <message>
        <source>Save &amp;as…</source>
        <translation>Salva &amp;come…</translation>
    </message>
    <message>
        <source>Write the style to another file</source>
        <translation>Scrive il modello in un altro file</translation>
    </message>
    <message>
        <source>&amp;Print…</source>
        <translation>Stam&amp;pa…</translation>
    </message>
    <message>
        <source>The papers of this desk, with a preview; full size where the paper is to be cut along</source>
        <translation>I documenti di questo banco, con anteprima; a grandezza naturale dove si taglia lungo il foglio</translation>
    </message>
    <message>
        <source>&amp;Close style</source>
        <translation>&amp;Chiudi modello</translation>
    </message>
    <message>
        <source>Back to the start page</source>
        <translation>Torna alla pagina iniziale</translation>
    </message>
    <message>
        <source>&amp;Quit</source>
        <translation>&amp;Esci</translation>
    </message>
    <message>
        <source>Undo the last step, on whichever desk it was done</source>
        <translation>Annulla l&apos;ultimo passo, su qualunque banco sia stato fatto</translation>
    </message>
    <message>
        <source>Redo the step</source>
        <translation>Ripeti il passo</translation>
    </message>
    <message>
        <source>Follow system theme</source>
        <translation>Segui il tema del sistema</translation>
    </message>
    <message>
        <source>The messages of the status line, the newest first</source>
        <translation>I messaggi della riga di stato, il più recente per primo</translation>
    </message>
    <message>
        <source>&amp;House rules…</source>
        <translation>Regole della &amp;casa…</translation>
    </message>
    <message>
        <source>Setbacks and allowances by edge kind, gap, margins, knife</source>
        <translation>Arretramenti e margini per tipo di bordo, distanza, bordi, lama</translation>
    </message>
    <message>
        <source>Lengths in &amp;millimetres</source>
        <translation>Lunghezze in &amp;millimetri</translation>
    </message>
    <message>
        <source>Lengths in &amp;inches</source>
        <translation>Lunghezze in &amp;pollici</translation>
    </message>
    <message>
        <source>&amp;Day</source>
        <translation>&amp;Giorno</translation>
    </message>
    <message>
        <source>&amp;Night</source>
        <translation>&amp;Notte</translation>
    </message>
    <message>
        <source>&amp;Full screen</source>
        <translation>&amp;Schermo intero</translation>
    </message>
    <message>
        <source>&amp;Keys</source>
        <translation>&amp;Tasti</translation>
    </message>
    <message>
        <source>Every action with its keys; type to find one</source>
        <translation>Ogni comando con i suoi tasti; scrivere per trovarne uno</translation>
    </message>
    <message>
        <source>&amp;Last messages</source>
        <translation>U&amp;ltimi messaggi</translation>
    </message>
    <message>
        <source>Five-minute &amp;tour</source>
        <translation>&amp;Visita guidata di cinque minuti</translation>
    </message>
    <message>
        <source>Walk through the job on a sample style</source>
        <translation>Il lavoro passo per passo su un modello di prova</translation>
    </message>
    <message>
        <source>&amp;About stayply</source>
        <translation>&amp;Informazioni su stayply</translation>
    </message>
    <message>
        <source>The last messages</source>
        <translation>Gli ultimi messaggi</translation>
    </message>
    <message>
        <source>No messages yet.</source>
        <translation>Ancora nessun messaggio.</translation>
    </message>
</context>
<context>
    <name>Sizes</name>
    <message>
        <source>length and width</source>
        <translation>lunghezza e larghezza</translation>
    </message>
    <message>
        <source>length only</source>
        <translation>solo lunghezza</translation>
    </message>
    <message>
        <source>width only</source>
        <translation>solo larghezza</translation>
    </message>
    <message>
        <source>not at all</source>
        <translation>per niente</translation>
    </message>
    <message>
        <source>Paris points</source>
        <translation>Punti Parigi</translation>
    </message>
    <message>
        <source>UK</source>
        <translation>UK</translation>
    </message>
    <message>
        <source>US, men</source>
        <translation>US, uomo</translation>
    </message>
    <message>
        <source>US, women</source>
        <translation>US, donna</translation>
    </message>
    <message>
        <source>Mondopoint</source>
        <translation>Mondopoint</translation>
    </message>
    <message>
        <source>Sizes of the style</source>
        <translation>Misure del modello</translation>
    </message>
    <message>
        <source>Size system</source>
        <translation>Sistema di misure</translation>
    </message>
    <message>
        <source>Base size</source>
        <translation>Misura base</translation>
    </message>
    <message>
        <source>The size that is marked. Where only one size is drawn: the size that the drawing is of</source>
        <translation>La misura su cui si segna. Dove è disegnata una sola misura: la misura del disegno</translation>
    </message>
    <message>
        <source>Ball girth of the base size</source>
        <translation>Calzata della misura base</translation>
    </message>
    <message>
        <source>System</source>
        <translation>Sistema</translation>
    </message>
    <message>
        <source>Ball girth</source>
        <translation>Calzata</translation>
    </message>
    <message>
        <source>Sizes to add</source>
        <translation>Misure da aggiungere</translation>
    </message>
    <message>
        <source>Add</source>
        <translation>Aggiungi</translation>
    </message>
    <message>
        <source>Remove</source>
        <translation>Togli</translation>
    </message>
    <message>
        <source>Keep as drawn</source>
        <translation>Tieni come disegnata</translation>
    </message>
    <message>
        <source>The graded outlines of this size become its drawings, to be corrected</source>
        <translation>I contorni sviluppati di questa misura diventano i suoi disegni, da correggere</translation>
    </message>
    <message>
        <source>Grade again</source>
        <translation>Sviluppa di nuovo</translation>
    </message>
    <message>
        <source>Discard the drawings of this size: it is graded from the base size again</source>
        <translation>Dimentica i disegni di questa misura: segue dalla misura base</translation>
    </message>
    <message>
        <source>Show the nest</source>
        <translation>Mostra le misure sovrapposte</translation>
    </message>
    <message>
        <source>What grows from size to size</source>
        <translation>Che cosa cresce da misura a misura</translation>
    </message>
    <message>
        <source>Cut in the shape of size</source>
        <translation>Tagliata nella forma della misura</translation>
    </message>
    <message>
        <source>One card or die for several sizes: the size chosen above is cut in this shape</source>
        <translation>Un cartone o una fustella per più misure: la misura scelta sopra si taglia in questa forma</translation>
    </message>
    <message>
        <source>Grows in</source>
        <translation>Cresce in</translation>
    </message>
    <message>
        <source>Cut as size</source>
        <translation>Tagliata come</translation>
    </message>
    <message>
        <source>Size</source>
        <translation>Misura</translation>
    </message>
    <message>
        <source>Last</source>
        <translation>Forma</translation>
    </message>
    <message>
        <source>Step</source>
        <translation>Passo</translation>
    </message>
    <message>
        <source>Girth</source>
        <translation>Calzata</translation>
    </message>
    <message>
        <source>Pieces</source>
        <translation>Pezzi</translation>
    </message>
    <message>
        <source>drawn</source>
        <translation>disegnati</translation>
    </message>
    <message>
        <source>graded</source>
        <translation>sviluppati</translation>
    </message>
    <message>
        <source>as another</source>
        <translation>come altra</translation>
    </message>
    <message>
        <source>missing</source>
        <translation>mancanti</translation>
    </message>
    <message>
        <source>Grading of {0}</source>
        <translation>Sviluppo di {0}</translation>
    </message>
    <message>
        <source>Grading of a piece: select one on the board</source>
        <translation>Sviluppo di un pezzo: selezionarne uno sul tavolo</translation>
    </message>
    <message>
        <source>its own shape</source>
        <translation>forma propria</translation>
    </message>
    <message>
        <source>Sizes of the order</source>
        <translation>Misure dell&apos;ordine</translation>
    </message>
    <message>
        <source>The order has sizes that {0} lacks: {1}.</source>
        <translation>L&apos;ordine ha misure che {0} non ha: {1}.</translation>
    </message>
    <message>
        <source>Add them? They are graded from the base size.</source>
        <translation>Aggiungerle? Si sviluppano dalla misura base.</translation>
    </message>
    <message>
        <source>Add the sizes</source>
        <translation>Aggiungi le misure</translation>
    </message>
</context>
<context>
    <name>Start</name>
    <message>
        <source>From the upper&apos;s drawing to the cut cloth</source>
        <translation>Dal disegno della tomaia al tessuto tagliato</translation>
    </message>
    <message>
        <source>Mark the edges of the upper pieces, derive their backing, lay it on the roll, cost a pair.</source>
        <translation>Segnare i bordi dei pezzi, ricavarne il rinforzo, piazzarlo sul rotolo, calcolare il costo di un paio.</translation>
    </message>
    <message>
        <source>New style from a DXF…</source>
        <translation>Nuovo modello da un DXF…</translation>
    </message>
    <message>
        <source>New style from card patterns…</source>
        <translation>Nuovo modello da cartoni…</translation>
    </message>
    <message>
        <source>Open a style…</source>
        <translation>Apri un modello…</translation>
    </message>
    <message>
        <source>Five-minute tour</source>
        <translation>Visita guidata di cinque minuti</translation>
    </message>
    <message>
        <source>or drop files anywhere in this window</source>
        <translation>o trascinare i file in questa finestra</translation>
    </message>
    <message>
        <source>Continue with</source>
        <translation>Continua con</translation>
    </message>
    <message>
        <source>Sample styles</source>
        <translation>Modelli di prova</translation>
    </message>
</context>
<context>
    <name>Step</name>
    <message>
        <source>Turn pull axis</source>
        <translation>Gira asse di tiro</translation>
    </message>
    <message>
        <source>Confirm pull axis</source>
        <translation>Conferma asse di tiro</translation>
    </message>
    <message>
        <source>Move break point</source>
        <translation>Sposta punto di divisione</translation>
    </message>
    <message>
        <source>Add break point</source>
        <translation>Aggiungi punto di divisione</translation>
    </message>
    <message>
        <source>Remove break point</source>
        <translation>Togli punto di divisione</translation>
    </message>
    <message>
        <source>Edge kind</source>
        <translation>Tipo di bordo</translation>
    </message>
    <message>
        <source>Setback</source>
        <translation>Arretramento</translation>
    </message>
    <message>
        <source>Allowance</source>
        <translation>Margine</translation>
    </message>
    <message>
        <source>Confirm edges</source>
        <translation>Conferma bordi</translation>
    </message>
    <message>
        <source>Confirm piece</source>
        <translation>Conferma pezzo</translation>
    </message>
    <message>
        <source>Confirm everything</source>
        <translation>Conferma tutto</translation>
    </message>
    <message>
        <source>Copy edge kinds</source>
        <translation>Copia tipi di bordo</translation>
    </message>
    <message>
        <source>One backing for two pieces</source>
        <translation>Un solo rinforzo per due pezzi</translation>
    </message>
    <message>
        <source>Remove what was drawn</source>
        <translation>Togli ciò che è disegnato</translation>
    </message>
    <message>
        <source>Rename piece</source>
        <translation>Rinomina pezzo</translation>
    </message>
    <message>
        <source>Strip tests</source>
        <translation>Prove a striscia</translation>
    </message>
    <message>
        <source>Other version of the file</source>
        <translation>Altra versione del file</translation>
    </message>
    <message>
        <source>Pieces per shoe</source>
        <translation>Pezzi per scarpa</translation>
    </message>
    <message>
        <source>Draw cut line</source>
        <translation>Disegna linea di taglio</translation>
    </message>
    <message>
        <source>Draw region</source>
        <translation>Disegna zona</translation>
    </message>
    <message>
        <source>Split backing</source>
        <translation>Dividi rinforzo</translation>
    </message>
    <message>
        <source>Change stretch by hand</source>
        <translation>Cambia tratto a mano</translation>
    </message>
    <message>
        <source>Smooth stretch</source>
        <translation>Liscia tratto</translation>
    </message>
    <message>
        <source>Draw slit</source>
        <translation>Disegna fessura</translation>
    </message>
    <message>
        <source>Draw mark</source>
        <translation>Disegna segno</translation>
    </message>
    <message>
        <source>Set notch</source>
        <translation>Metti tacca</translation>
    </message>
    <message>
        <source>Set drill hole</source>
        <translation>Metti foro</translation>
    </message>
    <message>
        <source>Relief cuts</source>
        <translation>Tagli di sgravio</translation>
    </message>
    <message>
        <source>Write word</source>
        <translation>Scrivi parola</translation>
    </message>
    <message>
        <source>Setback along edge</source>
        <translation>Arretramento lungo il bordo</translation>
    </message>
    <message>
        <source>Break at corners</source>
        <translation>Spezza agli angoli</translation>
    </message>
    <message>
        <source>Backing layers</source>
        <translation>Strati di rinforzo</translation>
    </message>
    <message>
        <source>Drawn as assembled</source>
        <translation>Disegnato assemblato</translation>
    </message>
    <message>
        <source>Remove piece</source>
        <translation>Togli pezzo</translation>
    </message>
    <message>
        <source>Unfold half pattern</source>
        <translation>Apri mezzo modello</translation>
    </message>
    <message>
        <source>Fold to half pattern</source>
        <translation>Piega a mezzo modello</translation>
    </message>
    <message>
        <source>Mirror to a twin</source>
        <translation>Specchia in un gemello</translation>
    </message>
    <message>
        <source>Copy all to the twin</source>
        <translation>Copia tutto sul gemello</translation>
    </message>
    <message>
        <source>Keep twins alike</source>
        <translation>Gemelli uguali</translation>
    </message>
    <message>
        <source>Unlink twins</source>
        <translation>Scollega gemelli</translation>
    </message>
    <message>
        <source>Pair sewn edges</source>
        <translation>Accoppia bordi cuciti</translation>
    </message>
    <message>
        <source>Take seam apart</source>
        <translation>Separa cucitura</translation>
    </message>
    <message>
        <source>Duplicate piece</source>
        <translation>Duplica pezzo</translation>
    </message>
    <message>
        <source>Add pieces</source>
        <translation>Aggiungi pezzi</translation>
    </message>
    <message>
        <source>Size system</source>
        <translation>Sistema di misure</translation>
    </message>
    <message>
        <source>Base size</source>
        <translation>Misura base</translation>
    </message>
    <message>
        <source>Ball girth</source>
        <translation>Calzata</translation>
    </message>
    <message>
        <source>Add sizes</source>
        <translation>Aggiungi misure</translation>
    </message>
    <message>
        <source>Remove size</source>
        <translation>Togli misura</translation>
    </message>
    <message>
        <source>Keep size as drawn</source>
        <translation>Tieni misura come disegnata</translation>
    </message>
    <message>
        <source>Grade size again</source>
        <translation>Sviluppa di nuovo la misura</translation>
    </message>
    <message>
        <source>Grading of a piece</source>
        <translation>Sviluppo di un pezzo</translation>
    </message>
    <message>
        <source>Cut as another size</source>
        <translation>Tagliata come altra misura</translation>
    </message>
    <message>
        <source>Cloth</source>
        <translation>Tessuto</translation>
    </message>
    <message>
        <source>Add cloth</source>
        <translation>Aggiungi tessuto</translation>
    </message>
    <message>
        <source>Remove cloth</source>
        <translation>Togli tessuto</translation>
    </message>
    <message>
        <source>Tight direction</source>
        <translation>Senso rigido</translation>
    </message>
    <message>
        <source>Mark flaw</source>
        <translation>Segna difetto</translation>
    </message>
    <message>
        <source>Remove flaw</source>
        <translation>Togli difetto</translation>
    </message>
    <message>
        <source>House rules</source>
        <translation>Regole della casa</translation>
    </message>
    <message>
        <source>Revised drawing</source>
        <translation>Disegno rivisto</translation>
    </message>
    <message>
        <source>Open lay of the run plan</source>
        <translation>Apri piazzamento del piano</translation>
    </message>
    <message>
        <source>Release locked lay</source>
        <translation>Libera piazzamento bloccato</translation>
    </message>
    <message>
        <source>Give lay back to the plan</source>
        <translation>Restituisci piazzamento al piano</translation>
    </message>
    <message>
        <source>Order of lay</source>
        <translation>Ordine del piazzamento</translation>
    </message>
    <message>
        <source>Pairs ordered</source>
        <translation>Paia ordinate</translation>
    </message>
    <message>
        <source>Fill lay</source>
        <translation>Riempi piazzamento</translation>
    </message>
    <message>
        <source>Move pieces of lay</source>
        <translation>Sposta pezzi del piazzamento</translation>
    </message>
    <message>
        <source>Slide pieces of lay</source>
        <translation>Scorri pezzi del piazzamento</translation>
    </message>
    <message>
        <source>Turn pieces of lay</source>
        <translation>Gira pezzi del piazzamento</translation>
    </message>
    <message>
        <source>Pin pieces of lay</source>
        <translation>Fissa pezzi del piazzamento</translation>
    </message>
    <message>
        <source>Lift pieces of lay</source>
        <translation>Togli pezzi dal piazzamento</translation>
    </message>
    <message>
        <source>Put piece back on lay</source>
        <translation>Rimetti pezzo sul piazzamento</translation>
    </message>
    <message>
        <source>Swap pieces of lay</source>
        <translation>Scambia pezzi del piazzamento</translation>
    </message>
    <message>
        <source>Another lay</source>
        <translation>Altro piazzamento</translation>
    </message>
    <message>
        <source>Remove lay</source>
        <translation>Togli piazzamento</translation>
    </message>
    <message>
        <source>Draw hold line</source>
        <translation>Traccia linea di tenuta</translation>
    </message>
    <message>
        <source>Move hold line</source>
        <translation>Sposta linea di tenuta</translation>
    </message>
    <message>
        <source>Remove hold line</source>
        <translation>Togli linea di tenuta</translation>
    </message>
    <message>
        <source>Hold limit</source>
        <translation>Limite di tenuta</translation>
    </message>
    <message>
        <source>Chain of hold lines</source>
        <translation>Catena di linee di tenuta</translation>
    </message>
    <message>
        <source>Remove chain of hold lines</source>
        <translation>Togli catena di linee di tenuta</translation>
    </message>
    <message>
        <source>Left or right</source>
        <translation>Sinistro o destro</translation>
    </message>
    <message>
        <source>Filed in the register</source>
        <translation>Messo nel registro</translation>
    </message>
    <message>
        <source>Upper material</source>
        <translation>Materiale della tomaia</translation>
    </message>
    <message>
        <source>Working pull</source>
        <translation>Tiro di lavoro</translation>
    </message>
</context>
<context>
    <name>Strips</name>
    <message>
        <source>Angle °</source>
        <translation>Angolo °</translation>
    </message>
    <message>
        <source>Load N</source>
        <translation>Carico N</translation>
    </message>
    <message>
        <source>Extension</source>
        <translation>Allung.</translation>
    </message>
    <message>
        <source>Narrowing</source>
        <translation>Restr.</translation>
    </message>
    <message>
        <source>At the pull</source>
        <translation>Al tiro</translation>
    </message>
    <message>
        <source>Note</source>
        <translation>Nota</translation>
    </message>
    <message>
        <source>Of the strip</source>
        <translation>Della striscia</translation>
    </message>
    <message>
        <source>Between the two marks</source>
        <translation>Fra i due segni</translation>
    </message>
    <message>
        <source>Extension between the marks under that load</source>
        <translation>Allungamento fra i segni sotto quel carico</translation>
    </message>
    <message>
        <source>How much narrower the strip got in its middle; empty where it was not read</source>
        <translation>Di quanto la striscia si è ristretta nel mezzo; vuoto dove non è stato letto</translation>
    </message>
    <message>
        <source>Counter-clockwise from the pull axis</source>
        <translation>In senso antiorario dall&apos;asse di tiro</translation>
    </message>
    <message>
        <source>Counter-clockwise from the roll&apos;s length</source>
        <translation>In senso antiorario dalla lunghezza del rotolo</translation>
    </message>
    <message>
        <source>Several loads: type pairs, smallest first, as 12.5=1.2; 25=2.5</source>
        <translation>Più carichi: scrivere coppie, dal minore, come 12.5=1.2; 25=2.5</translation>
    </message>
    <message>
        <source>Strip tests</source>
        <translation>Prove a striscia</translation>
    </message>
    <message>
        <source>“{0}” is not a reading of this strip</source>
        <translation>«{0}» non è una lettura di questa striscia</translation>
    </message>
    <message>
        <source>Strips of</source>
        <translation>Strisce di</translation>
    </message>
    <message>
        <source>working pull N/mm</source>
        <translation>tiro di lavoro N/mm</translation>
    </message>
    <message>
        <source>Pull of lasting per mm of width; about 1 (common practice)</source>
        <translation>Tiro del montaggio per mm di larghezza; circa 1 (pratica comune)</translation>
    </message>
    <message>
        <source>Result of the strips</source>
        <translation>Risultato delle strisce</translation>
    </message>
    <message>
        <source>Value</source>
        <translation>Valore</translation>
    </message>
    <message>
        <source>Extension against angle</source>
        <translation>Allungamento secondo l&apos;angolo</translation>
    </message>
    <message>
        <source>Upper material</source>
        <translation>Materiale della tomaia</translation>
    </message>
    <message>
        <source>Thickness</source>
        <translation>Spessore</translation>
    </message>
    <message>
        <source>Ranking by hand</source>
        <translation>Graduatoria a mano</translation>
    </message>
    <message>
        <source>Pull the coated cloth by hand and write the angles, least give first; = between two that feel alike</source>
        <translation>Tirare a mano il tessuto spalmato e scrivere gli angoli, prima chi cede meno; = fra due che si sentono uguali</translation>
    </message>
    <message>
        <source>Use as assumed</source>
        <translation>Usa come presunto</translation>
    </message>
    <message>
        <source>Quick check by hand</source>
        <translation>Prova rapida a mano</translation>
    </message>
    <message>
        <source>upper: {0}</source>
        <translation>tomaia: {0}</translation>
    </message>
    <message>
        <source>Pulled by hand: {0}.</source>
        <translation>Tirato a mano: {0}.</translation>
    </message>
    <message>
        <source>Width</source>
        <translation>Largh.</translation>
    </message>
    <message>
        <source>Gauge</source>
        <translation>Base</translation>
    </message>
</context>
<context>
    <name>Tour</name>
    <message>
        <source>The upper and its backing</source>
        <translation>La tomaia e il suo rinforzo</translation>
    </message>
    <message>
        <source>What happens at an edge</source>
        <translation>Che cosa succede a un bordo</translation>
    </message>
    <message>
        <source>Click an edge and press 1 to 8, or choose a kind at the right: lasting, folded, underlay… The kind sets how far the backing stops short. Sweep over several edges with the mouse to mark them at once.</source>
        <translation>Clic su un bordo e un tasto da 1 a 8, oppure scegliere un tipo a destra: montaggio, ripiegato, sottoposto… Il tipo decide di quanto si ferma il rinforzo. Passare con il mouse su più bordi per segnarli insieme.</translation>
    </message>
    <message>
        <source>The pull</source>
        <translation>Il tiro</translation>
    </message>
    <message>
        <source>The arrow is the way lasting pulls the piece, heel to toe. Drag its ends or type the angle: on the roll it will lie along the cloth&apos;s tight direction.</source>
        <translation>La freccia è come il montaggio tira il pezzo, da tallone a punta. Trascinare gli estremi o scrivere l&apos;angolo: sul rotolo si disporrà lungo il senso rigido del tessuto.</translation>
    </message>
    <message>
        <source>Edges that glow violet and dashed arrows are suggestions. Confirm one with Enter, a piece with Shift+Enter; the list at the right shows what is left.</source>
        <translation>I bordi con alone viola e le frecce tratteggiate sono proposte. Confermarne una con Invio, un pezzo con Maiusc+Invio; la lista a destra mostra che cosa resta.</translation>
    </message>
    <message>
        <source>X cuts the backing along a line you click, Shift+X beside the selected edge. R keeps a layer of its own cloth inside a region, Shift+R along the edge. W splits it in parts, Shift+J backs two pieces in one. All sizes follow.</source>
        <translation>X taglia il rinforzo lungo una linea, Maiusc+X accanto al bordo selezionato. R tiene uno strato di un altro tessuto dentro una zona, Maiusc+R lungo il bordo. W lo divide in parti, Maiusc+J rinforza due pezzi in uno. Tutte le misure seguono.</translation>
    </message>
    <message>
        <source>By hand, and along an edge</source>
        <translation>A mano, e lungo un bordo</translation>
    </message>
    <message>
        <source>J changes a stretch by hand, Shift+C smooths it. Shift+S lets a setback run from one value to another; B breaks an edge, Shift+B all corners, Shift+A selects all edges of a kind. Shift+Backspace removes what was drawn.</source>
        <translation>J cambia un tratto a mano, Maiusc+C lo liscia. Maiusc+S fa variare un arretramento da un valore a un altro; B divide un bordo, Maiusc+B tutti gli angoli, Maiusc+A seleziona i bordi di un tipo. Maiusc+Backspace toglie ciò che è disegnato.</translation>
    </message>
    <message>
        <source>Notches, holes, words</source>
        <translation>Tacche, fori, scritte</translation>
    </message>
    <message>
        <source>Q sets a notch, Y a drill hole, I a slit, Shift+I a mark; Shift+Q makes relief cuts along a curved fold, Shift+W writes a word. On the upper, the backing or both, as chosen above the board.</source>
        <translation>Q mette una tacca, Y un foro, I una fessura, Maiusc+I un segno; Maiusc+Q fa tagli di sgravio lungo una piega curva, Maiusc+W scrive. Sulla tomaia, sul rinforzo o su tutti e due, come scelto sopra il tavolo.</translation>
    </message>
    <message>
        <source>Half patterns and twins</source>
        <translation>Mezzi modelli e gemelli</translation>
    </message>
    <message>
        <source>Shift+U unfolds a half pattern over its centre edge, Shift+F folds a piece. Shift+M mirrors it to a twin, Shift+T copies all to the twin, Shift+L keeps the two alike. Ctrl+D duplicates a piece, Shift+Del deletes it.</source>
        <translation>Maiusc+U apre un mezzo modello sulla mezzeria, Maiusc+F piega un pezzo. Maiusc+M lo specchia in un gemello, Maiusc+T copia tutto sul gemello, Maiusc+L li tiene uguali. Ctrl+D duplica un pezzo, Maiusc+Canc lo elimina.</translation>
    </message>
    <message>
        <source>New pieces, drawn or from card patterns</source>
        <translation>Pezzi nuovi, disegnati o da cartoni</translation>
    </message>
    <message>
        <source>T draws a rectangle and Shift+O a free shape as a new piece, Shift+G one of typed figures: an upper, or a backing alone. Ctrl+Shift+A adds pieces of another drawing, Ctrl+Shift+T card patterns from a photograph or a scan.</source>
        <translation>T disegna un rettangolo e Maiusc+O una forma libera come nuovo pezzo, Maiusc+G uno dalle cifre: tomaia, o solo rinforzo. Ctrl+Maiusc+A aggiunge pezzi di un altro disegno, Ctrl+Maiusc+T cartoni da una foto o una scansione.</translation>
    </message>
    <message>
        <source>Measure and compare</source>
        <translation>Misurare e confrontare</translation>
    </message>
    <message>
        <source>M measures between two points, Shift+E sews two edges and shows their difference, Shift+N lays all sizes over each other. H draws the hold line. Ctrl+2 has the sizes; Ctrl+3 lengths, areas, and two sizes or versions compared.</source>
        <translation>M misura tra due punti, Maiusc+E cuce due bordi e ne dice la differenza, Maiusc+N sovrappone tutte le misure. H disegna la linea di tenuta. Ctrl+2 ha le misure; Ctrl+3 lunghezze, aree, e due misure o versioni a confronto.</translation>
    </message>
    <message>
        <source>A revised drawing</source>
        <translation>Un disegno aggiornato</translation>
    </message>
    <message>
        <source>Ctrl+Shift+N gives the pieces the outlines of a revised drawing. What was marked and drawn on them stays; what could not be carried is listed, to accept or refuse piece by piece.</source>
        <translation>Ctrl+Maiusc+N dà ai pezzi i contorni di un disegno aggiornato. Quello che era segnato e disegnato resta; quello che non si è potuto portare è elencato, da accettare o rifiutare pezzo per pezzo.</translation>
    </message>
    <message>
        <source>The cloth</source>
        <translation>Il tessuto</translation>
    </message>
    <message>
        <source>Width, usable width, tight direction and price. Drag on the roll to mark a flaw; the lay will keep clear of it.</source>
        <translation>Altezza, altezza utile, senso rigido e prezzo. Trascinare sul rotolo per segnare un difetto; il piazzamento lo eviterà.</translation>
    </message>
    <message>
        <source>The lay</source>
        <translation>Il piazzamento</translation>
    </message>
    <message>
        <source>Say how many pairs of each size and fill the roll; stop when you like, the best lay stays. Then move pieces by hand: faults show while you drag.</source>
        <translation>Dire quante paia per misura e riempire il rotolo; fermare quando si vuole, resta il migliore. Poi spostare i pezzi a mano: gli errori si vedono mentre si trascina.</translation>
    </message>
    <message>
        <source>Each tan piece is a piece of the upper as it is cut; the blue-grey one over it is its backing. Wheel to zoom; drag with the middle button, or with Ctrl+Shift held, to move the board.</source>
        <translation>Ogni pezzo color cuoio è un pezzo della tomaia come si taglia; quello grigio-blu sopra è il suo rinforzo. Rotella per lo zoom; trascinare con il tasto centrale, o tenendo Ctrl+Maiusc, per spostare il tavolo.</translation>
    </message>
    <message>
        <source>Suggestions need confirming</source>
        <translation>Le proposte vanno confermate</translation>
    </message>
    <message>
        <source>Draw on the backing</source>
        <translation>Disegnare sul rinforzo</translation>
    </message>
    <message>
        <source>Printing and export</source>
        <translation>Stampa ed esportazione</translation>
    </message>
    <message>
        <source>Ctrl+E writes the files for the cutter, Ctrl+P prints: the lay plan, the cut ticket, the lay at full size. A lay with a fault is never exported. On the draft desk the same keys give the boards.</source>
        <translation>Ctrl+E scrive i file per il taglio, Ctrl+P stampa: il piano del piazzamento, la bolla di taglio, il piazzamento a grandezza naturale. Un piazzamento con errori non si esporta mai. Al banco Modello gli stessi tasti danno i cartoni.</translation>
    </message>
    <message>
        <source>What a pair costs</source>
        <translation>Quanto costa un paio</translation>
    </message>
    <message>
        <source>Cloth per pair by size, yield, price; compare roll widths side by side.</source>
        <translation>Tessuto per paio e misura, resa, prezzo; confrontare le altezze affiancate.</translation>
    </message>
    <message>
        <source>Tour</source>
        <translation>Visita guidata</translation>
    </message>
    <message>
        <source>Back</source>
        <translation>Indietro</translation>
    </message>
    <message>
        <source>Next</source>
        <translation>Avanti</translation>
    </message>
    <message>
        <source>Leave the tour</source>
        <translation>Esci dalla visita</translation>
    </message>
    <message>
        <source>Finish</source>
        <translation>Fine</translation>
    </message>
</context>
<context>
    <name>Trace</name>
    <message>
        <source>Card patterns from {0}</source>
        <translation>Cartoni da {0}</translation>
    </message>
    <message>
        <source>Outlines over the picture</source>
        <translation>Contorni sopra l&apos;immagine</translation>
    </message>
    <message>
        <source>photograph on the printed sheet {0}</source>
        <translation>fotografia sul foglio stampato {0}</translation>
    </message>
    <message>
        <source>scan of known resolution</source>
        <translation>scansione di risoluzione nota</translation>
    </message>
    <message>
        <source>Find the cards</source>
        <translation>Trova i cartoni</translation>
    </message>
    <message>
        <source>Cards found</source>
        <translation>Cartoni trovati</translation>
    </message>
    <message>
        <source>Click two points</source>
        <translation>Fare clic su due punti</translation>
    </message>
    <message>
        <source>Known length</source>
        <translation>Lunghezza nota</translation>
    </message>
    <message>
        <source>Size of the cards</source>
        <translation>Misura dei cartoni</translation>
    </message>
    <message>
        <source>How the picture is scaled</source>
        <translation>Come è scalata l&apos;immagine</translation>
    </message>
    <message>
        <source>Dots per inch</source>
        <translation>Punti per pollice</translation>
    </message>
    <message>
        <source>Choose how the picture is scaled, then find the cards.</source>
        <translation>Scegliere come è scalata l&apos;immagine, poi trovare i cartoni.</translation>
    </message>
    <message>
        <source>Make a style from them</source>
        <translation>Fanne un modello</translation>
    </message>
    <message>
        <source>Add to the style</source>
        <translation>Aggiungi al modello</translation>
    </message>
    <message>
        <source>Write the sheet to print…</source>
        <translation>Scrivi il foglio da stampare…</translation>
    </message>
    <message>
        <source>Check one length</source>
        <translation>Controllo di una lunghezza</translation>
    </message>
    <message>
        <source>In the outline</source>
        <translation>Nel contorno</translation>
    </message>
    <message>
        <source>On the card</source>
        <translation>Sul cartone</translation>
    </message>
    <message>
        <source>Size system</source>
        <translation>Sistema di misure</translation>
    </message>
    <message>
        <source>Looking for the cards in {0}…</source>
        <translation>Si cercano i cartoni in {0}…</translation>
    </message>
    <message>
        <source>card {0}</source>
        <translation>cartone {0}</translation>
    </message>
    <message>
        <source>Accurate to ± {0} (one standard deviation), from {1} markers.</source>
        <translation>Precisione ± {0} (uno scarto tipo), da {1} marcatori.</translation>
    </message>
    <message>
        <source>Accurate to ± {0} (one standard deviation), if the resolution is right.</source>
        <translation>Precisione ± {0} (uno scarto tipo), se la risoluzione è giusta.</translation>
    </message>
    <message>
        <source>within the accuracy of the picture.</source>
        <translation>entro la precisione dell&apos;immagine.</translation>
    </message>
    <message>
        <source>more than the accuracy of the picture. Is the scale right, was the card flat?</source>
        <translation>oltre la precisione dell&apos;immagine. La scala è giusta, il cartone era piano?</translation>
    </message>
    <message>
        <source>Drag an outline to where the edge is seen (Alt: one point only), Ctrl+Z takes it back. Double click a name to change it.</source>
        <translation>Trascinare un contorno dove si vede il bordo (Alt: un solo punto), Ctrl+Z lo annulla. Doppio clic su un nome per cambiarlo.</translation>
    </message>
    <message>
        <source>Difference {0} ({1})</source>
        <translation>Differenza {0} ({1})</translation>
    </message>
    <message>
        <source>Write the sheet to print</source>
        <translation>Scrivere il foglio da stampare</translation>
    </message>
    <message>
        <source>PDF (*.pdf)</source>
        <translation>PDF (*.pdf)</translation>
    </message>
    <message>
        <source>{0} is written: print it at 100 % and measure the 100 mm square.</source>
        <translation>{0} è scritto: stamparlo al 100 % e misurare il quadrato di 100 mm.</translation>
    </message>
    <message>
        <source>Notches and lines found</source>
        <translation>Tacche e linee trovate</translation>
    </message>
    <message>
        <source>{0}: notch, {1} deep</source>
        <translation>{0}: tacca, profonda {1}</translation>
    </message>
    <message>
        <source>{0}: line, {1} long</source>
        <translation>{0}: linea, lunga {1}</translation>
    </message>
</context>
<context>
    <name>Trials</name>
    <message>
        <source>Earlier trials, nearest to this style first</source>
        <translation>Prove precedenti, dalla più vicina a questo modello</translation>
    </message>
    <message>
        <source>Day</source>
        <translation>Giorno</translation>
    </message>
    <message>
        <source>Upper / cloth</source>
        <translation>Tomaia / tessuto</translation>
    </message>
    <message>
        <source>What the hold line had predicted that day</source>
        <translation>Quanto aveva previsto quel giorno la linea di tenuta</translation>
    </message>
    <message>
        <source>What the field had predicted that day</source>
        <translation>Quanto aveva previsto quel giorno il campo</translation>
    </message>
    <message>
        <source>Measured against predicted, line and field</source>
        <translation>Misurato e previsto, linea e campo</translation>
    </message>
    <message>
        <source>Working out what line and field predict …</source>
        <translation>Calcolo di che cosa prevedono linea e campo …</translation>
    </message>
    <message>
        <source>Piece</source>
        <translation>Pezzo</translation>
    </message>
    <message>
        <source>Cloth</source>
        <translation>Tessuto</translation>
    </message>
    <message>
        <source>Verdict</source>
        <translation>Esito</translation>
    </message>
    <message>
        <source>Note</source>
        <translation>Nota</translation>
    </message>
    <message>
        <source>Trials</source>
        <translation>Prove</translation>
    </message>
    <message>
        <source>Entered as trial {0}</source>
        <translation>Inserita come prova {0}</translation>
    </message>
    <message>
        <source>good</source>
        <translation>buono</translation>
    </message>
    <message>
        <source>doubtful</source>
        <translation>dubbio</translation>
    </message>
    <message>
        <source>bad</source>
        <translation>cattivo</translation>
    </message>
    <message>
        <source>Double-click opens them</source>
        <translation>Il doppio clic le apre</translation>
    </message>
    <message>
        <source>Enter a trial</source>
        <translation>Inserisci una prova</translation>
    </message>
    <message>
        <source>Force that peels the bond, per width of the strip</source>
        <translation>Forza che stacca l&apos;incollaggio, per larghezza della striscia</translation>
    </message>
    <message>
        <source>Heel to throat along the side, after lasting</source>
        <translation>Dal tallone allo scollo lungo il fianco, dopo il montaggio</translation>
    </message>
    <message>
        <source>Kind</source>
        <translation>Tipo</translation>
    </message>
    <message>
        <source>Of upper with backing, at the working pull</source>
        <translation>Di tomaia con rinforzo, al tiro di lavoro</translation>
    </message>
    <message>
        <source>On the last, after lasting; minus where it lies short of the mark</source>
        <translation>Sulla forma, dopo il montaggio; meno dove sta prima del segno</translation>
    </message>
    <message>
        <source>{0} off the mark</source>
        <translation>{0} dal segno</translation>
    </message>
    <message>
        <source>{0} at the edge</source>
        <translation>{0} al bordo</translation>
    </message>
    <message>
        <source>visible</source>
        <translation>visibile</translation>
    </message>
    <message>
        <source>reject</source>
        <translation>scarto</translation>
    </message>
    <message>
        <source>Throat off its mark</source>
        <translation>Scollo fuori dal segno</translation>
    </message>
    <message>
        <source>after delasting</source>
        <translation>dopo la sformatura</translation>
    </message>
    <message>
        <source>The same, after delasting</source>
        <translation>Lo stesso, dopo la sformatura</translation>
    </message>
    <message>
        <source>Side length</source>
        <translation>Lunghezza del fianco</translation>
    </message>
    <message>
        <source>Peel N/mm</source>
        <translation>Distacco N/mm</translation>
    </message>
    <message>
        <source>Thickness at the edge</source>
        <translation>Spessore al bordo</translation>
    </message>
    <message>
        <source>Photos</source>
        <translation>Foto</translation>
    </message>
    <message>
        <source>Photos of the trial</source>
        <translation>Foto della prova</translation>
    </message>
    <message>
        <source>Photos…</source>
        <translation>Foto…</translation>
    </message>
    <message>
        <source>Pictures ({0})</source>
        <translation>Immagini ({0})</translation>
    </message>
    <message>
        <source>Result</source>
        <translation>Risultato</translation>
    </message>
    <message>
        <source>Ridge</source>
        <translation>Scalino</translation>
    </message>
    <message>
        <source>Show-through</source>
        <translation>Trasparenza</translation>
    </message>
    <message>
        <source>Size</source>
        <translation>Misura</translation>
    </message>
    <message>
        <source>Stretch %</source>
        <translation>Allungamento %</translation>
    </message>
    <message>
        <source>Their paths are kept in the book; the files stay where they are</source>
        <translation>Nel libro restano i percorsi; i file restano dove sono</translation>
    </message>
    <message>
        <source>There is no picture {0} any more</source>
        <translation>L&apos;immagine {0} non c&apos;è più</translation>
    </message>
    <message>
        <source>Thickness of upper and backing together after skiving</source>
        <translation>Spessore di tomaia e rinforzo insieme dopo la scarnitura</translation>
    </message>
    <message>
        <source>Upper and cloth must have names: trials are filed under them.</source>
        <translation>Tomaia e tessuto devono avere un nome: le prove si archiviano sotto di essi.</translation>
    </message>
    <message>
        <source>Weave, glue or colour coming through to the face</source>
        <translation>Trama, colla o colore che passa al diritto</translation>
    </message>
    <message>
        <source>Enter in the trial book</source>
        <translation>Inserisci nel libro delle prove</translation>
    </message>
    <message>
        <source>delasted {0}</source>
        <translation>dopo la sformatura {0}</translation>
    </message>
    <message>
        <source>fused sample</source>
        <translation>campione pressato</translation>
    </message>
    <message>
        <source>not assessed</source>
        <translation>non valutato</translation>
    </message>
    <message>
        <source>in raking light</source>
        <translation>in luce radente</translation>
    </message>
    <message>
        <source>Edge of the backing visible or felt on the face</source>
        <translation>Bordo del rinforzo che si vede o si sente sul diritto</translation>
    </message>
    <message>
        <source>lasting</source>
        <translation>montaggio</translation>
    </message>
    <message>
        <source>none</source>
        <translation>nessuno</translation>
    </message>
    <message>
        <source>peel {0} N/mm</source>
        <translation>distacco {0} N/mm</translation>
    </message>
    <message>
        <source>ridge: {0}</source>
        <translation>scalino: {0}</translation>
    </message>
    <message>
        <source>show-through: {0}</source>
        <translation>trasparenza: {0}</translation>
    </message>
    <message>
        <source>side {0}</source>
        <translation>fianco {0}</translation>
    </message>
    <message>
        <source>skiving check</source>
        <translation>controllo scarnitura</translation>
    </message>
    <message>
        <source>stretch {0} %</source>
        <translation>allungamento {0} %</translation>
    </message>
    <message>
        <source>No lasting trial of this upper with its cloths yet: three of them tell how far to trust the figures.</source>
        <translation>Ancora nessuna prova di montaggio di questa tomaia con i suoi tessuti: tre dicono quanto fidarsi delle cifre.</translation>
    </message>
    <message>
        <source>Style and piece</source>
        <translation>Modello e pezzo</translation>
    </message>
    <message>
        <source>Line</source>
        <translation>Linea</translation>
    </message>
    <message>
        <source>Field</source>
        <translation>Campo</translation>
    </message>
    <message>
        <source>{0}: off by {1} on average, measured over predicted {2}</source>
        <translation>{0}: errore medio {1}, misurato su previsto {2}</translation>
    </message>
    <message>
        <source>, scatter {0} %</source>
        <translation>, dispersione {0} %</translation>
    </message>
    <message>
        <source>{0} trials with both predictions show which predicts better.</source>
        <translation>{0} prove con entrambe le previsioni dicono quale prevede meglio.</translation>
    </message>
    <message>
        <source>the field is nearer by {0} to {1} on average</source>
        <translation>il campo è più vicino in media da {0} a {1}</translation>
    </message>
    <message>
        <source>These trials do not show which predicts better: {0}.</source>
        <translation>Queste prove non dicono quale prevede meglio: {0}.</translation>
    </message>
    <message>
        <source>On these trials the field predicts better: {0}.</source>
        <translation>In queste prove prevede meglio il campo: {0}.</translation>
    </message>
    <message>
        <source>On these trials the line predicts better: {0}.</source>
        <translation>In queste prove prevede meglio la linea: {0}.</translation>
    </message>
</context>
<context>
    <name>Whole</name>
    <message>
        <source>Select a piece first: click it on the board.</source>
        <translation>Selezionare prima un pezzo: fare clic sul tavolo.</translation>
    </message>
    <message>
        <source>Select one edge, the one along the fold, or none.</source>
        <translation>Selezionare un bordo, quello lungo la piega, o nessuno.</translation>
    </message>
    <message>
        <source>{0} mirrored</source>
        <translation>{0} speculare</translation>
    </message>
    <message>
        <source>No piece is the mirror image of {0}.</source>
        <translation>Nessun pezzo è l&apos;immagine speculare di {0}.</translation>
    </message>
    <message>
        <source>Copied to {0}; edges: {1}.</source>
        <translation>Copiato su {0}; bordi: {1}.</translation>
    </message>
    <message>
        <source>Please check: {0}.</source>
        <translation>Da controllare: {0}.</translation>
    </message>
    <message>
        <source>The twins are no longer linked.</source>
        <translation>I gemelli non sono più collegati.</translation>
    </message>
    <message>
        <source>{0} and {1} are kept alike from now on.</source>
        <translation>{0} e {1} restano uguali d&apos;ora in poi.</translation>
    </message>
    <message>
        <source>Select one edge to sew.</source>
        <translation>Selezionare un bordo da cucire.</translation>
    </message>
    <message>
        <source>Now select the edge that {0} is sewn to there, and sew again.</source>
        <translation>Ora selezionare il bordo a cui si cuce {0} e cucire di nuovo.</translation>
    </message>
    <message>
        <source>Add pieces of a drawing</source>
        <translation>Aggiungi pezzi di un disegno</translation>
    </message>
    <message>
        <source>Drawings (*.dxf)</source>
        <translation>Disegni (*.dxf)</translation>
    </message>
    <message>
        <source>Added: {0}</source>
        <translation>Aggiunti: {0}</translation>
    </message>
    <message>
        <source>New piece</source>
        <translation>Nuovo pezzo</translation>
    </message>
    <message>
        <source>Mirror to a new twin</source>
        <translation>Specchia in un nuovo gemello</translation>
    </message>
    <message>
        <source>The mirror image of {0} becomes another piece of the same shoe.</source>
        <translation>L&apos;immagine speculare di {0} diventa un altro pezzo della stessa scarpa.</translation>
    </message>
    <message>
        <source>Name of the twin</source>
        <translation>Nome del gemello</translation>
    </message>
    <message>
        <source>Keep the two alike from now on</source>
        <translation>Tieni uguali i due d&apos;ora in poi</translation>
    </message>
    <message>
        <source>Name</source>
        <translation>Nome</translation>
    </message>
    <message>
        <source>Mirror</source>
        <translation>Specchia</translation>
    </message>
    <message>
        <source>Draw a new piece</source>
        <translation>Disegna un nuovo pezzo</translation>
    </message>
    <message>
        <source>A rectangle by its sides; or any shape, by its corners.</source>
        <translation>Un rettangolo per i lati; o qualsiasi forma, per gli angoli.</translation>
    </message>
    <message>
        <source>Width</source>
        <translation>Larghezza</translation>
    </message>
    <message>
        <source>Height</source>
        <translation>Altezza</translation>
    </message>
    <message>
        <source>Corners</source>
        <translation>Angoli</translation>
    </message>
    <message>
        <source>x,y of every corner, in their order; empty draws the rectangle</source>
        <translation>x,y di ogni angolo, in ordine; vuoto disegna il rettangolo</translation>
    </message>
    <message>
        <source>A backing without an upper, cut as it is drawn</source>
        <translation>Un rinforzo senza tomaia, tagliato come disegnato</translation>
    </message>
    <message>
        <source>Draw</source>
        <translation>Disegna</translation>
    </message>
    <message>
        <source>Pieces of {0} that come into this style:</source>
        <translation>Pezzi di {0} che entrano in questo modello:</translation>
    </message>
    <message>
        <source>Pieces of the drawing</source>
        <translation>Pezzi del disegno</translation>
    </message>
    <message>
        <source>Add</source>
        <translation>Aggiungi</translation>
    </message>
</context>
</TS>
