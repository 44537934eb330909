package org.holdtrace.command;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;

/**
 * Loads the classes of an analysis in a thread of its own, in the order in which they will be wanted, while the main
 * thread still looks at the call and reads its input. Loading is a third of a short run (docs/decisions/0004-start-up-time.md);
 * a class that is missing here costs that fraction of a millisecond again and nothing else.
 *
 * <p>Classes are loaded and linked but not initialised: two threads that initialise classes which need each other would
 * wait for one another for ever.
 */
final class ClassesAhead implements Runnable {
    private static final String JACKSON = "com.fasterxml.jackson.core.";
    private static final String CBOR = "com.fasterxml.jackson.dataformat.cbor.";
    private static final String CSV = "de.siegmar.fastcsv.";
    private static final String SESSION = "org.holdtrace.session.";
    private static final String QUANTITY = "org.holdtrace.quantity.";
    private static final String TRACE = "org.holdtrace.trace.";
    private static final String ESTIMATE = "org.holdtrace.estimate.";
    private static final String FIT = "org.holdtrace.fit.";
    private static final String FLUID = "org.holdtrace.fluid.";
    private static final String WORDING = "org.holdtrace.wording.";
    private static final String COMMAND = "org.holdtrace.command.";

    /** What only a session needs. */
    private static final String[][] FOR_SESSIONS = {
        {SESSION, "HoldFileReader FrameSplitter$Handler SessionAssembler FrameSplitter SessionAssembler$Remarks"},
        {SESSION, "PayloadReader PayloadReader$Key Parsers"},
        {JACKSON, "sym.ByteQuadsCanonicalizer sym.ByteQuadsCanonicalizer$TableInfo"},
        {CBOR, "CBORParser"},
        {SESSION, "Cobs FrameType SessionAssembler$1 HeaderKeys"},
        {CBOR, "CBORParser$Feature CBORReadContext CBORConstants CBORParser$TagList CBORParser$StringRefListStack"},
        {JACKSON, "util.InternCache Base64Variants Base64Variant Base64Variant$PaddingReadBehaviour"},
        {SESSION, "HeaderKeys$ChannelKeys HeaderKeys$CalibrationKeys Calibration Calibration$Point ChannelKind Channel"
        },
        {SESSION, "SessionHeader PayloadReader$Event SessionEvent SessionEvent$Note PayloadReader$TruthKeys"},
        {
            SESSION,
            "PayloadReader$Values Truth PayloadReader$Samples TypedArray SampleBlock PayloadReader$EndKeys EndMark"
        },
        {SESSION, "Session"},
    };

    /** What only a trace needs. */
    private static final String[][] FOR_TRACES = {
        {SESSION, "CsvTraceReader CsvRows CsvLook CsvColumns CsvColumn$Role CsvColumn CsvRows$Refused"},
        {CSV, "reader.CsvParseException reader.CsvReader reader.CloseableIterator reader.CsvReader$CsvReaderBuilder"},
        {CSV, "reader.BomInputStreamReader reader.NamedCsvRecordHandler reader.CommentStrategy util.Limits"},
        {CSV, "reader.CsvParser util.Util util.Preconditions reader.CsvParser$CsvBuffer"},
        {CSV, "reader.CsvReader$CsvRecordIterator"},
        {SESSION, "InstantCell DecimalCell DoubleColumn CsvTraceReader$Reading"},
    };

    /** What every analysis needs. */
    private static final String[][] FOR_ALL = {
        {JACKSON, "json.ReaderBasedJsonParser JsonFactory$Feature JsonParser$Feature exc.StreamConstraintsException"},
        {JACKSON, "exc.InputCoercionException JsonParseException io.JsonEOFException StreamReadCapability"},
        {JACKSON, "io.IOContext util.ReadConstrainedTextBuffer StreamReadConstraints StreamWriteConstraints"},
        {JACKSON, "ErrorReportConfiguration util.BufferRecycler io.ContentReference JsonToken util.JacksonFeatureSet"},
        {JACKSON, "json.JsonReadContext io.CharTypes sym.CharsToNameCanonicalizer$TableInfo JsonLocation"},
        {JACKSON, "sym.CharsToNameCanonicalizer sym.CharsToNameCanonicalizer$Bucket"},
        {SESSION, "Parsers TestSetup SetupParser SetupField SetupReader SetupParser$1 OilGrade SetupField$Range"},
        {QUANTITY, "Dimension QuantityParser Unit Quantity Require"},
        {"org.holdtrace.library.", "Recordings Recording WorkNotes"},
        {
            TRACE,
            "Trace Stroke TraceSegmenter PhaseDetector PhaseDetector$Listener PhaseDetector$1 BlockFilter RunningMean"
        },
        {TRACE, "NoiseMeter Histogram StrokeFinder BleedFinder SettlingWatch PlateauWatch Phase Medians PhaseDetector$2"
        },
        {TRACE, "StrokeFinder$Found FoundTest PhaseSpan HoldTest HoldTest$RestLevel TestJoiner RestLevels SampleWindow"
        },
        {
            TRACE,
            "Line StrokeRefiner EdgeFit StrokeRefiner$Edges UnbrokenPushes SmallStrokeFinder PlateauFinder HoldRefiner"
        },
        {
            ESTIMATE,
            "HoldTestEstimator Cautions Spans WorkingUnits TestPressures StrokeRises CleanTrace Reduction RowPlan"
        },
        {ESTIMATE, "RowPlan$Bin Reduction$Kind Columns Reduction$Trend OilKnowledge OpeningGrid JointFit"},
        {FLUID, "Oil ViscosityIndex Walther LubricantDensity BulkModulus"},
        {ESTIMATE, "Knowledge$OilPrior Knowledge Prior ModelError Noise Evidence LeakShape"},
        {"org.holdtrace.leak.", "Law"},
        {
            ESTIMATE,
            "Posterior Posterior$MostProbableFirst NodeFit HalfChiSquare NodeFit$LeakAt Posterior$Node StrokeResiduals StrokeResiduals$Steps"
        },
        {FIT, "Vectors Cholesky GaussNewton GaussNewton$Problem InformationCriteria"},
        {ESTIMATE, "NoiseFit NoiseFit$Memory Joint Carry RouteFits HoldTestResult$Route RouteFits$1 DrawnCompliance"},
        {ESTIMATE, "RouteFits$Fitted HoldTestResult$RouteRate HoldTestResult$Agreement Conclusion Conclusion$Spread"},
        {FIT, "Uncertainty Measurand Sample WeightedMean Arguments ChiSquare SpecialFunctions StudentT Normal"},
        {ESTIMATE, "Budget HoldTestResult$BudgetLine Budget$LargestFirst HoldTestResult$Caution HoldTestResult"},
        {
            ESTIMATE,
            "HoldTestResult$Compliance HoldTestResult$Leak HoldTestResult$Outcome HoldTestResult$Verdict Pictures"
        },
        {ESTIMATE, "HoldTestResult$FitPoint HoldTestResult$CurvePoint HoldTestResult$FitPicture"},
        {COMMAND, "SessionResult"},
    };

    private static final String[][] FOR_TEXT = {
        {COMMAND, "TextBlock HoldTestText SummaryRow"}, {WORDING, "Phrases Figures ShownUnits Phrases$1"},
    };

    private static final String[][] FOR_JSON = {
        {COMMAND, "ResultJson"},
        {JACKSON, "JsonFactory json.UTF8JsonGenerator JsonEncoding JsonGenerator$Feature exc.StreamWriteException"},
        {JACKSON, "JsonGenerationException json.JsonWriteContext json.JsonWriteFeature util.DefaultPrettyPrinter"},
        {JACKSON, "util.DefaultIndenter util.DefaultPrettyPrinter$FixedSpaceIndenter util.Separators io.NumberOutput"},
        {JACKSON, "io.SerializedString io.JsonStringEncoder util.JsonRecyclerPools"},
        {WORDING, "Figures"},
    };

    private final List<String> names;

    private ClassesAhead(List<String> names) {
        this.names = names;
    }

    /** Begins, where {@code args} call for an analysis and there is a processor to spare. */
    static void begin(String[] args) {
        if (args.length < 2
                || !args[0].equals("analyse")
                || Runtime.getRuntime().availableProcessors() < 2) {
            return;
        }
        Thread thread = new Thread(new ClassesAhead(names(args)), "classes ahead");
        thread.setDaemon(true);
        thread.start();
    }

    /** The classes that a call of {@code analyse} will want. */
    static List<String> names(String[] args) {
        boolean traces = false;
        boolean sessions = false;
        for (String arg : args) {
            String lower = arg.toLowerCase(Locale.ROOT);
            traces |= lower.endsWith(".csv");
            sessions |= lower.endsWith(".hold");
        }
        boolean json = Arrays.asList(args).contains("--json");
        List<String> names = new ArrayList<>();
        if (sessions || !traces) {
            add(FOR_SESSIONS, names);
        }
        if (traces || !sessions) {
            add(FOR_TRACES, names);
        }
        add(FOR_ALL, names);
        add(json ? FOR_JSON : FOR_TEXT, names);
        return names;
    }

    private static void add(String[][] groups, List<String> names) {
        for (String[] group : groups) {
            for (String name : group[1].split(" ", -1)) {
                names.add(group[0].concat(name));
            }
        }
    }

    @Override
    public void run() {
        ClassLoader loader = ClassesAhead.class.getClassLoader();
        int members = 0;
        for (String name : names) {
            try {
                // Asking for the fields of a class links it, which loading alone does not.
                members += Class.forName(name, false, loader).getDeclaredFields().length;
            } catch (ClassNotFoundException | LinkageError e) {
                // Whoever needs the class will say so better.
                members++;
            }
        }
        assert members >= 0;
    }
}
