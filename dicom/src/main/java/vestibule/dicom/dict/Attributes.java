package vestibule.dicom.dict;

import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.Multiplicity;
import vestibule.dicom.data.Tag;
import vestibule.dicom.data.VR;

/**
 * The attributes that code names, each compared with its row of the dictionary by a test (PS3.6 6, PS3.7 E.1). All others come
 * from {@link Dictionary} by number or keyword; where PS3.6 allows several representations the first one stands here.
 */
public final class Attributes {

    public static final Attribute COMMAND_GROUP_LENGTH = of(0x00000000, VR.UL, "1", "CommandGroupLength");
    public static final Attribute AFFECTED_SOP_CLASS_UID = of(0x00000002, VR.UI, "1", "AffectedSOPClassUID");
    public static final Attribute REQUESTED_SOP_CLASS_UID = of(0x00000003, VR.UI, "1", "RequestedSOPClassUID");
    public static final Attribute COMMAND_FIELD = of(0x00000100, VR.US, "1", "CommandField");
    public static final Attribute MESSAGE_ID = of(0x00000110, VR.US, "1", "MessageID");
    public static final Attribute MESSAGE_ID_BEING_RESPONDED_TO =
            of(0x00000120, VR.US, "1", "MessageIDBeingRespondedTo");
    public static final Attribute MOVE_DESTINATION = of(0x00000600, VR.AE, "1", "MoveDestination");
    public static final Attribute PRIORITY = of(0x00000700, VR.US, "1", "Priority");
    public static final Attribute COMMAND_DATA_SET_TYPE = of(0x00000800, VR.US, "1", "CommandDataSetType");
    public static final Attribute STATUS = of(0x00000900, VR.US, "1", "Status");
    public static final Attribute OFFENDING_ELEMENT = of(0x00000901, VR.AT, "1-n", "OffendingElement");
    public static final Attribute ERROR_COMMENT = of(0x00000902, VR.LO, "1", "ErrorComment");
    public static final Attribute ERROR_ID = of(0x00000903, VR.US, "1", "ErrorID");
    public static final Attribute AFFECTED_SOP_INSTANCE_UID = of(0x00001000, VR.UI, "1", "AffectedSOPInstanceUID");
    public static final Attribute REQUESTED_SOP_INSTANCE_UID = of(0x00001001, VR.UI, "1", "RequestedSOPInstanceUID");
    public static final Attribute EVENT_TYPE_ID = of(0x00001002, VR.US, "1", "EventTypeID");
    public static final Attribute ATTRIBUTE_IDENTIFIER_LIST = of(0x00001005, VR.AT, "1-n", "AttributeIdentifierList");
    public static final Attribute ACTION_TYPE_ID = of(0x00001008, VR.US, "1", "ActionTypeID");
    public static final Attribute NUMBER_OF_REMAINING_SUBOPERATIONS =
            of(0x00001020, VR.US, "1", "NumberOfRemainingSuboperations");
    public static final Attribute NUMBER_OF_COMPLETED_SUBOPERATIONS =
            of(0x00001021, VR.US, "1", "NumberOfCompletedSuboperations");
    public static final Attribute NUMBER_OF_FAILED_SUBOPERATIONS =
            of(0x00001022, VR.US, "1", "NumberOfFailedSuboperations");
    public static final Attribute NUMBER_OF_WARNING_SUBOPERATIONS =
            of(0x00001023, VR.US, "1", "NumberOfWarningSuboperations");
    public static final Attribute MOVE_ORIGINATOR_APPLICATION_ENTITY_TITLE =
            of(0x00001030, VR.AE, "1", "MoveOriginatorApplicationEntityTitle");
    public static final Attribute MOVE_ORIGINATOR_MESSAGE_ID = of(0x00001031, VR.US, "1", "MoveOriginatorMessageID");
    public static final Attribute FILE_META_INFORMATION_GROUP_LENGTH =
            of(0x00020000, VR.UL, "1", "FileMetaInformationGroupLength");
    public static final Attribute FILE_META_INFORMATION_VERSION =
            of(0x00020001, VR.OB, "1", "FileMetaInformationVersion");
    public static final Attribute MEDIA_STORAGE_SOP_CLASS_UID = of(0x00020002, VR.UI, "1", "MediaStorageSOPClassUID");
    public static final Attribute MEDIA_STORAGE_SOP_INSTANCE_UID =
            of(0x00020003, VR.UI, "1", "MediaStorageSOPInstanceUID");
    public static final Attribute TRANSFER_SYNTAX_UID = of(0x00020010, VR.UI, "1", "TransferSyntaxUID");
    public static final Attribute IMPLEMENTATION_CLASS_UID = of(0x00020012, VR.UI, "1", "ImplementationClassUID");
    public static final Attribute IMPLEMENTATION_VERSION_NAME = of(0x00020013, VR.SH, "1", "ImplementationVersionName");
    public static final Attribute SOURCE_APPLICATION_ENTITY_TITLE =
            of(0x00020016, VR.AE, "1", "SourceApplicationEntityTitle");
    public static final Attribute SENDING_APPLICATION_ENTITY_TITLE =
            of(0x00020017, VR.AE, "1", "SendingApplicationEntityTitle");
    public static final Attribute RECEIVING_APPLICATION_ENTITY_TITLE =
            of(0x00020018, VR.AE, "1", "ReceivingApplicationEntityTitle");
    public static final Attribute SOURCE_PRESENTATION_ADDRESS = of(0x00020026, VR.UR, "1", "SourcePresentationAddress");
    public static final Attribute SENDING_PRESENTATION_ADDRESS =
            of(0x00020027, VR.UR, "1", "SendingPresentationAddress");
    public static final Attribute RECEIVING_PRESENTATION_ADDRESS =
            of(0x00020028, VR.UR, "1", "ReceivingPresentationAddress");
    public static final Attribute RTV_META_INFORMATION_VERSION =
            of(0x00020031, VR.OB, "1", "RTVMetaInformationVersion");
    public static final Attribute RTV_COMMUNICATION_SOP_CLASS_UID =
            of(0x00020032, VR.UI, "1", "RTVCommunicationSOPClassUID");
    public static final Attribute RTV_COMMUNICATION_SOP_INSTANCE_UID =
            of(0x00020033, VR.UI, "1", "RTVCommunicationSOPInstanceUID");
    public static final Attribute RTV_SOURCE_IDENTIFIER = of(0x00020035, VR.OB, "1", "RTVSourceIdentifier");
    public static final Attribute RTV_FLOW_IDENTIFIER = of(0x00020036, VR.OB, "1", "RTVFlowIdentifier");
    public static final Attribute RTV_FLOW_RTP_SAMPLING_RATE = of(0x00020037, VR.UL, "1", "RTVFlowRTPSamplingRate");
    public static final Attribute RTV_FLOW_ACTUAL_FRAME_DURATION =
            of(0x00020038, VR.FD, "1", "RTVFlowActualFrameDuration");
    public static final Attribute PRIVATE_INFORMATION_CREATOR_UID =
            of(0x00020100, VR.UI, "1", "PrivateInformationCreatorUID");
    public static final Attribute PRIVATE_INFORMATION = of(0x00020102, VR.OB, "1", "PrivateInformation");
    public static final Attribute SPECIFIC_CHARACTER_SET = of(0x00080005, VR.CS, "1-n", "SpecificCharacterSet");
    public static final Attribute IMAGE_TYPE = of(0x00080008, VR.CS, "2-n", "ImageType");
    public static final Attribute INSTANCE_CREATION_DATE = of(0x00080012, VR.DA, "1", "InstanceCreationDate");
    public static final Attribute INSTANCE_CREATION_TIME = of(0x00080013, VR.TM, "1", "InstanceCreationTime");
    public static final Attribute INSTANCE_CREATOR_UID = of(0x00080014, VR.UI, "1", "InstanceCreatorUID");
    public static final Attribute INSTANCE_COERCION_DATE_TIME = of(0x00080015, VR.DT, "1", "InstanceCoercionDateTime");
    public static final Attribute SOP_CLASS_UID = of(0x00080016, VR.UI, "1", "SOPClassUID");
    public static final Attribute ACQUISITION_UID = of(0x00080017, VR.UI, "1", "AcquisitionUID");
    public static final Attribute SOP_INSTANCE_UID = of(0x00080018, VR.UI, "1", "SOPInstanceUID");
    public static final Attribute RELATED_GENERAL_SOP_CLASS_UID =
            of(0x0008001A, VR.UI, "1-n", "RelatedGeneralSOPClassUID");
    public static final Attribute ORIGINAL_SPECIALIZED_SOP_CLASS_UID =
            of(0x0008001B, VR.UI, "1", "OriginalSpecializedSOPClassUID");
    public static final Attribute SYNTHETIC_DATA = of(0x0008001C, VR.CS, "1", "SyntheticData");
    public static final Attribute STUDY_DATE = of(0x00080020, VR.DA, "1", "StudyDate");
    public static final Attribute SERIES_DATE = of(0x00080021, VR.DA, "1", "SeriesDate");
    public static final Attribute ACQUISITION_DATE = of(0x00080022, VR.DA, "1", "AcquisitionDate");
    public static final Attribute CONTENT_DATE = of(0x00080023, VR.DA, "1", "ContentDate");
    public static final Attribute ACQUISITION_DATE_TIME = of(0x0008002A, VR.DT, "1", "AcquisitionDateTime");
    public static final Attribute STUDY_TIME = of(0x00080030, VR.TM, "1", "StudyTime");
    public static final Attribute SERIES_TIME = of(0x00080031, VR.TM, "1", "SeriesTime");
    public static final Attribute ACQUISITION_TIME = of(0x00080032, VR.TM, "1", "AcquisitionTime");
    public static final Attribute CONTENT_TIME = of(0x00080033, VR.TM, "1", "ContentTime");
    public static final Attribute ACCESSION_NUMBER = of(0x00080050, VR.SH, "1", "AccessionNumber");
    public static final Attribute ISSUER_OF_ACCESSION_NUMBER_SEQUENCE =
            of(0x00080051, VR.SQ, "1", "IssuerOfAccessionNumberSequence");
    public static final Attribute QUERY_RETRIEVE_LEVEL = of(0x00080052, VR.CS, "1", "QueryRetrieveLevel");
    public static final Attribute QUERY_RETRIEVE_VIEW = of(0x00080053, VR.CS, "1", "QueryRetrieveView");
    public static final Attribute RETRIEVE_AE_TITLE = of(0x00080054, VR.AE, "1-n", "RetrieveAETitle");
    public static final Attribute INSTANCE_AVAILABILITY = of(0x00080056, VR.CS, "1", "InstanceAvailability");
    public static final Attribute FAILED_SOP_INSTANCE_UID_LIST =
            of(0x00080058, VR.UI, "1-n", "FailedSOPInstanceUIDList");
    public static final Attribute MODALITY = of(0x00080060, VR.CS, "1", "Modality");
    public static final Attribute MODALITIES_IN_STUDY = of(0x00080061, VR.CS, "1-n", "ModalitiesInStudy");
    public static final Attribute SOP_CLASSES_IN_STUDY = of(0x00080062, VR.UI, "1-n", "SOPClassesInStudy");
    public static final Attribute MANUFACTURER = of(0x00080070, VR.LO, "1", "Manufacturer");
    public static final Attribute INSTITUTION_NAME = of(0x00080080, VR.LO, "1", "InstitutionName");
    public static final Attribute INSTITUTION_ADDRESS = of(0x00080081, VR.ST, "1", "InstitutionAddress");
    public static final Attribute INSTITUTION_CODE_SEQUENCE = of(0x00080082, VR.SQ, "1", "InstitutionCodeSequence");
    public static final Attribute REFERRING_PHYSICIAN_NAME = of(0x00080090, VR.PN, "1", "ReferringPhysicianName");
    public static final Attribute REFERRING_PHYSICIAN_IDENTIFICATION_SEQUENCE =
            of(0x00080096, VR.SQ, "1", "ReferringPhysicianIdentificationSequence");
    public static final Attribute CONSULTING_PHYSICIAN_NAME = of(0x0008009C, VR.PN, "1-n", "ConsultingPhysicianName");
    public static final Attribute CONSULTING_PHYSICIAN_IDENTIFICATION_SEQUENCE =
            of(0x0008009D, VR.SQ, "1", "ConsultingPhysicianIdentificationSequence");
    public static final Attribute CODE_VALUE = of(0x00080100, VR.SH, "1", "CodeValue");
    public static final Attribute CODING_SCHEME_DESIGNATOR = of(0x00080102, VR.SH, "1", "CodingSchemeDesignator");
    public static final Attribute CODING_SCHEME_VERSION = of(0x00080103, VR.SH, "1", "CodingSchemeVersion");
    public static final Attribute CODE_MEANING = of(0x00080104, VR.LO, "1", "CodeMeaning");
    public static final Attribute MAPPING_RESOURCE = of(0x00080105, VR.CS, "1", "MappingResource");
    public static final Attribute CONTEXT_IDENTIFIER = of(0x0008010F, VR.CS, "1", "ContextIdentifier");
    public static final Attribute CODING_SCHEME_IDENTIFICATION_SEQUENCE =
            of(0x00080110, VR.SQ, "1", "CodingSchemeIdentificationSequence");
    public static final Attribute LONG_CODE_VALUE = of(0x00080119, VR.UC, "1", "LongCodeValue");
    public static final Attribute URN_CODE_VALUE = of(0x00080120, VR.UR, "1", "URNCodeValue");
    public static final Attribute CONTEXT_GROUP_IDENTIFICATION_SEQUENCE =
            of(0x00080123, VR.SQ, "1", "ContextGroupIdentificationSequence");
    public static final Attribute MAPPING_RESOURCE_IDENTIFICATION_SEQUENCE =
            of(0x00080124, VR.SQ, "1", "MappingResourceIdentificationSequence");
    public static final Attribute TIMEZONE_OFFSET_FROM_UTC = of(0x00080201, VR.SH, "1", "TimezoneOffsetFromUTC");
    public static final Attribute PRIVATE_DATA_ELEMENT_CHARACTERISTICS_SEQUENCE =
            of(0x00080300, VR.SQ, "1", "PrivateDataElementCharacteristicsSequence");
    public static final Attribute STATION_NAME = of(0x00081010, VR.SH, "1", "StationName");
    public static final Attribute STUDY_DESCRIPTION = of(0x00081030, VR.LO, "1", "StudyDescription");
    public static final Attribute PROCEDURE_CODE_SEQUENCE = of(0x00081032, VR.SQ, "1", "ProcedureCodeSequence");
    public static final Attribute SERIES_DESCRIPTION = of(0x0008103E, VR.LO, "1", "SeriesDescription");
    public static final Attribute SERIES_DESCRIPTION_CODE_SEQUENCE =
            of(0x0008103F, VR.SQ, "1", "SeriesDescriptionCodeSequence");
    public static final Attribute INSTITUTIONAL_DEPARTMENT_NAME =
            of(0x00081040, VR.LO, "1", "InstitutionalDepartmentName");
    public static final Attribute INSTITUTIONAL_DEPARTMENT_TYPE_CODE_SEQUENCE =
            of(0x00081041, VR.SQ, "1", "InstitutionalDepartmentTypeCodeSequence");
    public static final Attribute PHYSICIANS_OF_RECORD = of(0x00081048, VR.PN, "1-n", "PhysiciansOfRecord");
    public static final Attribute PHYSICIANS_OF_RECORD_IDENTIFICATION_SEQUENCE =
            of(0x00081049, VR.SQ, "1", "PhysiciansOfRecordIdentificationSequence");
    public static final Attribute PERFORMING_PHYSICIAN_NAME = of(0x00081050, VR.PN, "1-n", "PerformingPhysicianName");
    public static final Attribute PERFORMING_PHYSICIAN_IDENTIFICATION_SEQUENCE =
            of(0x00081052, VR.SQ, "1", "PerformingPhysicianIdentificationSequence");
    public static final Attribute NAME_OF_PHYSICIANS_READING_STUDY =
            of(0x00081060, VR.PN, "1-n", "NameOfPhysiciansReadingStudy");
    public static final Attribute PHYSICIANS_READING_STUDY_IDENTIFICATION_SEQUENCE =
            of(0x00081062, VR.SQ, "1", "PhysiciansReadingStudyIdentificationSequence");
    public static final Attribute OPERATORS_NAME = of(0x00081070, VR.PN, "1-n", "OperatorsName");
    public static final Attribute OPERATOR_IDENTIFICATION_SEQUENCE =
            of(0x00081072, VR.SQ, "1", "OperatorIdentificationSequence");
    public static final Attribute ADMITTING_DIAGNOSES_DESCRIPTION =
            of(0x00081080, VR.LO, "1-n", "AdmittingDiagnosesDescription");
    public static final Attribute ADMITTING_DIAGNOSES_CODE_SEQUENCE =
            of(0x00081084, VR.SQ, "1", "AdmittingDiagnosesCodeSequence");
    public static final Attribute MANUFACTURER_MODEL_NAME = of(0x00081090, VR.LO, "1", "ManufacturerModelName");
    public static final Attribute REFERENCED_STUDY_SEQUENCE = of(0x00081110, VR.SQ, "1", "ReferencedStudySequence");
    public static final Attribute REFERENCED_PERFORMED_PROCEDURE_STEP_SEQUENCE =
            of(0x00081111, VR.SQ, "1", "ReferencedPerformedProcedureStepSequence");
    public static final Attribute REFERENCED_SERIES_SEQUENCE = of(0x00081115, VR.SQ, "1", "ReferencedSeriesSequence");
    public static final Attribute REFERENCED_PATIENT_SEQUENCE = of(0x00081120, VR.SQ, "1", "ReferencedPatientSequence");
    public static final Attribute REFERENCED_IMAGE_SEQUENCE = of(0x00081140, VR.SQ, "1", "ReferencedImageSequence");
    public static final Attribute REFERENCED_INSTANCE_SEQUENCE =
            of(0x0008114A, VR.SQ, "1", "ReferencedInstanceSequence");
    public static final Attribute REFERENCED_SOP_CLASS_UID = of(0x00081150, VR.UI, "1", "ReferencedSOPClassUID");
    public static final Attribute REFERENCED_SOP_INSTANCE_UID = of(0x00081155, VR.UI, "1", "ReferencedSOPInstanceUID");
    public static final Attribute REFERENCED_FRAME_NUMBER = of(0x00081160, VR.IS, "1-n", "ReferencedFrameNumber");
    public static final Attribute RETRIEVE_URL = of(0x00081190, VR.UR, "1", "RetrieveURL");
    public static final Attribute TRANSACTION_UID = of(0x00081195, VR.UI, "1", "TransactionUID");
    public static final Attribute FAILURE_REASON = of(0x00081197, VR.US, "1", "FailureReason");
    public static final Attribute FAILED_SOP_SEQUENCE = of(0x00081198, VR.SQ, "1", "FailedSOPSequence");
    public static final Attribute REFERENCED_SOP_SEQUENCE = of(0x00081199, VR.SQ, "1", "ReferencedSOPSequence");
    public static final Attribute STUDIES_CONTAINING_OTHER_REFERENCED_INSTANCES_SEQUENCE =
            of(0x00081200, VR.SQ, "1", "StudiesContainingOtherReferencedInstancesSequence");
    public static final Attribute RELATED_SERIES_SEQUENCE = of(0x00081250, VR.SQ, "1", "RelatedSeriesSequence");
    public static final Attribute DERIVATION_DESCRIPTION = of(0x00082111, VR.ST, "1", "DerivationDescription");
    public static final Attribute SOURCE_IMAGE_SEQUENCE = of(0x00082112, VR.SQ, "1", "SourceImageSequence");
    public static final Attribute ANATOMIC_REGION_SEQUENCE = of(0x00082218, VR.SQ, "1", "AnatomicRegionSequence");
    public static final Attribute ANATOMIC_REGION_MODIFIER_SEQUENCE =
            of(0x00082220, VR.SQ, "1", "AnatomicRegionModifierSequence");
    public static final Attribute PRIMARY_ANATOMIC_STRUCTURE_SEQUENCE =
            of(0x00082228, VR.SQ, "1", "PrimaryAnatomicStructureSequence");
    public static final Attribute PRIMARY_ANATOMIC_STRUCTURE_MODIFIER_SEQUENCE =
            of(0x00082230, VR.SQ, "1", "PrimaryAnatomicStructureModifierSequence");
    public static final Attribute IRRADIATION_EVENT_UID = of(0x00083010, VR.UI, "1-n", "IrradiationEventUID");
    public static final Attribute DERIVATION_CODE_SEQUENCE = of(0x00089215, VR.SQ, "1", "DerivationCodeSequence");
    public static final Attribute PATIENT_NAME = of(0x00100010, VR.PN, "1", "PatientName");
    public static final Attribute PATIENT_ID = of(0x00100020, VR.LO, "1", "PatientID");
    public static final Attribute ISSUER_OF_PATIENT_ID = of(0x00100021, VR.LO, "1", "IssuerOfPatientID");
    public static final Attribute TYPE_OF_PATIENT_ID = of(0x00100022, VR.CS, "1", "TypeOfPatientID");
    public static final Attribute ISSUER_OF_PATIENT_ID_QUALIFIERS_SEQUENCE =
            of(0x00100024, VR.SQ, "1", "IssuerOfPatientIDQualifiersSequence");
    public static final Attribute SOURCE_PATIENT_GROUP_IDENTIFICATION_SEQUENCE =
            of(0x00100026, VR.SQ, "1", "SourcePatientGroupIdentificationSequence");
    public static final Attribute GROUP_OF_PATIENTS_IDENTIFICATION_SEQUENCE =
            of(0x00100027, VR.SQ, "1", "GroupOfPatientsIdentificationSequence");
    public static final Attribute PATIENT_BIRTH_DATE = of(0x00100030, VR.DA, "1", "PatientBirthDate");
    public static final Attribute PATIENT_BIRTH_TIME = of(0x00100032, VR.TM, "1", "PatientBirthTime");
    public static final Attribute PATIENT_SEX = of(0x00100040, VR.CS, "1", "PatientSex");
    public static final Attribute QUALITY_CONTROL_SUBJECT = of(0x00100200, VR.CS, "1", "QualityControlSubject");
    public static final Attribute OTHER_PATIENT_I_DS = of(0x00101000, VR.LO, "1-n", "OtherPatientIDs");
    public static final Attribute OTHER_PATIENT_NAMES = of(0x00101001, VR.PN, "1-n", "OtherPatientNames");
    public static final Attribute OTHER_PATIENT_I_DS_SEQUENCE = of(0x00101002, VR.SQ, "1", "OtherPatientIDsSequence");
    public static final Attribute PATIENT_AGE = of(0x00101010, VR.AS, "1", "PatientAge");
    public static final Attribute PATIENT_SIZE = of(0x00101020, VR.DS, "1", "PatientSize");
    public static final Attribute PATIENT_SIZE_CODE_SEQUENCE = of(0x00101021, VR.SQ, "1", "PatientSizeCodeSequence");
    public static final Attribute PATIENT_BODY_MASS_INDEX = of(0x00101022, VR.DS, "1", "PatientBodyMassIndex");
    public static final Attribute MEASURED_AP_DIMENSION = of(0x00101023, VR.DS, "1", "MeasuredAPDimension");
    public static final Attribute MEASURED_LATERAL_DIMENSION = of(0x00101024, VR.DS, "1", "MeasuredLateralDimension");
    public static final Attribute PATIENT_WEIGHT = of(0x00101030, VR.DS, "1", "PatientWeight");
    public static final Attribute REFERENCED_PATIENT_PHOTO_SEQUENCE =
            of(0x00101100, VR.SQ, "1", "ReferencedPatientPhotoSequence");
    public static final Attribute MEDICAL_ALERTS = of(0x00102000, VR.LO, "1-n", "MedicalAlerts");
    public static final Attribute ALLERGIES = of(0x00102110, VR.LO, "1-n", "Allergies");
    public static final Attribute ETHNIC_GROUP = of(0x00102160, VR.SH, "1", "EthnicGroup");
    public static final Attribute ETHNIC_GROUP_CODE_SEQUENCE = of(0x00102161, VR.SQ, "1", "EthnicGroupCodeSequence");
    public static final Attribute OCCUPATION = of(0x00102180, VR.SH, "1", "Occupation");
    public static final Attribute ADDITIONAL_PATIENT_HISTORY = of(0x001021B0, VR.LT, "1", "AdditionalPatientHistory");
    public static final Attribute PATIENT_SEX_NEUTERED = of(0x00102203, VR.CS, "1", "PatientSexNeutered");
    public static final Attribute ANATOMICAL_ORIENTATION_TYPE = of(0x00102210, VR.CS, "1", "AnatomicalOrientationType");
    public static final Attribute RESPONSIBLE_PERSON = of(0x00102297, VR.PN, "1", "ResponsiblePerson");
    public static final Attribute RESPONSIBLE_PERSON_ROLE = of(0x00102298, VR.CS, "1", "ResponsiblePersonRole");
    public static final Attribute RESPONSIBLE_ORGANIZATION = of(0x00102299, VR.LO, "1", "ResponsibleOrganization");
    public static final Attribute PATIENT_COMMENTS = of(0x00104000, VR.LT, "1", "PatientComments");
    public static final Attribute PATIENT_IDENTITY_REMOVED = of(0x00120062, VR.CS, "1", "PatientIdentityRemoved");
    public static final Attribute DEIDENTIFICATION_METHOD = of(0x00120063, VR.LO, "1-n", "DeidentificationMethod");
    public static final Attribute DEIDENTIFICATION_METHOD_CODE_SEQUENCE =
            of(0x00120064, VR.SQ, "1", "DeidentificationMethodCodeSequence");
    public static final Attribute WHITE_POINT = of(0x00160001, VR.DS, "1", "WhitePoint");
    public static final Attribute PRIMARY_CHROMATICITIES = of(0x00160002, VR.DS, "3", "PrimaryChromaticities");
    public static final Attribute BATTERY_LEVEL = of(0x00160003, VR.UT, "1", "BatteryLevel");
    public static final Attribute EXPOSURE_TIME_IN_SECONDS = of(0x00160004, VR.DS, "1", "ExposureTimeInSeconds");
    public static final Attribute F_NUMBER = of(0x00160005, VR.DS, "1", "FNumber");
    public static final Attribute OECF_ROWS = of(0x00160006, VR.IS, "1", "OECFRows");
    public static final Attribute OECF_COLUMNS = of(0x00160007, VR.IS, "1", "OECFColumns");
    public static final Attribute OECF_COLUMN_NAMES = of(0x00160008, VR.UC, "1-n", "OECFColumnNames");
    public static final Attribute OECF_VALUES = of(0x00160009, VR.DS, "1-n", "OECFValues");
    public static final Attribute SPATIAL_FREQUENCY_RESPONSE_ROWS =
            of(0x0016000A, VR.IS, "1", "SpatialFrequencyResponseRows");
    public static final Attribute SPATIAL_FREQUENCY_RESPONSE_COLUMNS =
            of(0x0016000B, VR.IS, "1", "SpatialFrequencyResponseColumns");
    public static final Attribute SPATIAL_FREQUENCY_RESPONSE_COLUMN_NAMES =
            of(0x0016000C, VR.UC, "1-n", "SpatialFrequencyResponseColumnNames");
    public static final Attribute SPATIAL_FREQUENCY_RESPONSE_VALUES =
            of(0x0016000D, VR.DS, "1-n", "SpatialFrequencyResponseValues");
    public static final Attribute COLOR_FILTER_ARRAY_PATTERN_ROWS =
            of(0x0016000E, VR.IS, "1", "ColorFilterArrayPatternRows");
    public static final Attribute COLOR_FILTER_ARRAY_PATTERN_COLUMNS =
            of(0x0016000F, VR.IS, "1", "ColorFilterArrayPatternColumns");
    public static final Attribute COLOR_FILTER_ARRAY_PATTERN_VALUES =
            of(0x00160010, VR.DS, "1-n", "ColorFilterArrayPatternValues");
    public static final Attribute FLASH_FIRING_STATUS = of(0x00160011, VR.US, "1", "FlashFiringStatus");
    public static final Attribute FLASH_RETURN_STATUS = of(0x00160012, VR.US, "1", "FlashReturnStatus");
    public static final Attribute FLASH_MODE = of(0x00160013, VR.US, "1", "FlashMode");
    public static final Attribute FLASH_FUNCTION_PRESENT = of(0x00160014, VR.US, "1", "FlashFunctionPresent");
    public static final Attribute FLASH_RED_EYE_MODE = of(0x00160015, VR.US, "1", "FlashRedEyeMode");
    public static final Attribute EXPOSURE_PROGRAM = of(0x00160016, VR.US, "1", "ExposureProgram");
    public static final Attribute SPECTRAL_SENSITIVITY = of(0x00160017, VR.UT, "1", "SpectralSensitivity");
    public static final Attribute PHOTOGRAPHIC_SENSITIVITY = of(0x00160018, VR.IS, "1", "PhotographicSensitivity");
    public static final Attribute SELF_TIMER_MODE = of(0x00160019, VR.IS, "1", "SelfTimerMode");
    public static final Attribute SENSITIVITY_TYPE = of(0x0016001A, VR.US, "1", "SensitivityType");
    public static final Attribute STANDARD_OUTPUT_SENSITIVITY = of(0x0016001B, VR.IS, "1", "StandardOutputSensitivity");
    public static final Attribute RECOMMENDED_EXPOSURE_INDEX = of(0x0016001C, VR.IS, "1", "RecommendedExposureIndex");
    public static final Attribute ISO_SPEED = of(0x0016001D, VR.IS, "1", "ISOSpeed");
    public static final Attribute ISO_SPEED_LATITUDEYYY = of(0x0016001E, VR.IS, "1", "ISOSpeedLatitudeyyy");
    public static final Attribute ISO_SPEED_LATITUDEZZZ = of(0x0016001F, VR.IS, "1", "ISOSpeedLatitudezzz");
    public static final Attribute EXIF_VERSION = of(0x00160020, VR.UT, "1", "EXIFVersion");
    public static final Attribute SHUTTER_SPEED_VALUE = of(0x00160021, VR.DS, "1", "ShutterSpeedValue");
    public static final Attribute APERTURE_VALUE = of(0x00160022, VR.DS, "1", "ApertureValue");
    public static final Attribute BRIGHTNESS_VALUE = of(0x00160023, VR.DS, "1", "BrightnessValue");
    public static final Attribute EXPOSURE_BIAS_VALUE = of(0x00160024, VR.DS, "1", "ExposureBiasValue");
    public static final Attribute MAX_APERTURE_VALUE = of(0x00160025, VR.DS, "1", "MaxApertureValue");
    public static final Attribute SUBJECT_DISTANCE = of(0x00160026, VR.DS, "1", "SubjectDistance");
    public static final Attribute METERING_MODE = of(0x00160027, VR.US, "1", "MeteringMode");
    public static final Attribute LIGHT_SOURCE = of(0x00160028, VR.US, "1", "LightSource");
    public static final Attribute FOCAL_LENGTH = of(0x00160029, VR.DS, "1", "FocalLength");
    public static final Attribute SUBJECT_AREA = of(0x0016002A, VR.IS, "2-4", "SubjectArea");
    public static final Attribute MAKER_NOTE = of(0x0016002B, VR.OB, "1", "MakerNote");
    public static final Attribute TEMPERATURE = of(0x00160030, VR.DS, "1", "Temperature");
    public static final Attribute HUMIDITY = of(0x00160031, VR.DS, "1", "Humidity");
    public static final Attribute PRESSURE = of(0x00160032, VR.DS, "1", "Pressure");
    public static final Attribute WATER_DEPTH = of(0x00160033, VR.DS, "1", "WaterDepth");
    public static final Attribute ACCELERATION = of(0x00160034, VR.DS, "1", "Acceleration");
    public static final Attribute CAMERA_ELEVATION_ANGLE = of(0x00160035, VR.DS, "1", "CameraElevationAngle");
    public static final Attribute FLASH_ENERGY = of(0x00160036, VR.DS, "1-2", "FlashEnergy");
    public static final Attribute SUBJECT_LOCATION = of(0x00160037, VR.IS, "2", "SubjectLocation");
    public static final Attribute PHOTOGRAPHIC_EXPOSURE_INDEX = of(0x00160038, VR.DS, "1", "PhotographicExposureIndex");
    public static final Attribute SENSING_METHOD = of(0x00160039, VR.US, "1", "SensingMethod");
    public static final Attribute FILE_SOURCE = of(0x0016003A, VR.US, "1", "FileSource");
    public static final Attribute SCENE_TYPE = of(0x0016003B, VR.US, "1", "SceneType");
    public static final Attribute CUSTOM_RENDERED = of(0x00160041, VR.US, "1", "CustomRendered");
    public static final Attribute EXPOSURE_MODE = of(0x00160042, VR.US, "1", "ExposureMode");
    public static final Attribute WHITE_BALANCE = of(0x00160043, VR.US, "1", "WhiteBalance");
    public static final Attribute DIGITAL_ZOOM_RATIO = of(0x00160044, VR.DS, "1", "DigitalZoomRatio");
    public static final Attribute FOCAL_LENGTH_IN35MM_FILM = of(0x00160045, VR.IS, "1", "FocalLengthIn35mmFilm");
    public static final Attribute SCENE_CAPTURE_TYPE = of(0x00160046, VR.US, "1", "SceneCaptureType");
    public static final Attribute GAIN_CONTROL = of(0x00160047, VR.US, "1", "GainControl");
    public static final Attribute CONTRAST = of(0x00160048, VR.US, "1", "Contrast");
    public static final Attribute SATURATION = of(0x00160049, VR.US, "1", "Saturation");
    public static final Attribute SHARPNESS = of(0x0016004A, VR.US, "1", "Sharpness");
    public static final Attribute DEVICE_SETTING_DESCRIPTION = of(0x0016004B, VR.OB, "1", "DeviceSettingDescription");
    public static final Attribute SUBJECT_DISTANCE_RANGE = of(0x0016004C, VR.US, "1", "SubjectDistanceRange");
    public static final Attribute CAMERA_OWNER_NAME = of(0x0016004D, VR.UT, "1", "CameraOwnerName");
    public static final Attribute LENS_SPECIFICATION = of(0x0016004E, VR.DS, "4", "LensSpecification");
    public static final Attribute LENS_MAKE = of(0x0016004F, VR.UT, "1", "LensMake");
    public static final Attribute LENS_MODEL = of(0x00160050, VR.UT, "1", "LensModel");
    public static final Attribute LENS_SERIAL_NUMBER = of(0x00160051, VR.UT, "1", "LensSerialNumber");
    public static final Attribute INTEROPERABILITY_INDEX = of(0x00160061, VR.CS, "1", "InteroperabilityIndex");
    public static final Attribute INTEROPERABILITY_VERSION = of(0x00160062, VR.OB, "1", "InteroperabilityVersion");
    public static final Attribute GPS_LATITUDE = of(0x00160072, VR.DS, "3", "GPSLatitude");
    public static final Attribute GPS_LONGITUDE = of(0x00160074, VR.DS, "3", "GPSLongitude");
    public static final Attribute BODY_PART_EXAMINED = of(0x00180015, VR.CS, "1", "BodyPartExamined");
    public static final Attribute DEVICE_SERIAL_NUMBER = of(0x00181000, VR.LO, "1", "DeviceSerialNumber");
    public static final Attribute DEVICE_UID = of(0x00181002, VR.UI, "1", "DeviceUID");
    public static final Attribute GANTRY_ID = of(0x00181008, VR.LO, "1", "GantryID");
    public static final Attribute UDI_SEQUENCE = of(0x0018100A, VR.SQ, "1", "UDISequence");
    public static final Attribute MANUFACTURER_DEVICE_CLASS_UID =
            of(0x0018100B, VR.UI, "1-n", "ManufacturerDeviceClassUID");
    public static final Attribute SOFTWARE_VERSIONS = of(0x00181020, VR.LO, "1-n", "SoftwareVersions");
    public static final Attribute PROTOCOL_NAME = of(0x00181030, VR.LO, "1", "ProtocolName");
    public static final Attribute SPATIAL_RESOLUTION = of(0x00181050, VR.DS, "1", "SpatialResolution");
    public static final Attribute IMAGER_PIXEL_SPACING = of(0x00181164, VR.DS, "2", "ImagerPixelSpacing");
    public static final Attribute DATE_OF_LAST_CALIBRATION = of(0x00181200, VR.DA, "1-n", "DateOfLastCalibration");
    public static final Attribute TIME_OF_LAST_CALIBRATION = of(0x00181201, VR.TM, "1-n", "TimeOfLastCalibration");
    public static final Attribute DATE_OF_MANUFACTURE = of(0x00181204, VR.DA, "1", "DateOfManufacture");
    public static final Attribute DATE_OF_INSTALLATION = of(0x00181205, VR.DA, "1", "DateOfInstallation");
    public static final Attribute PATIENT_POSITION = of(0x00185100, VR.CS, "1", "PatientPosition");
    public static final Attribute CONTENT_QUALIFICATION = of(0x00189004, VR.CS, "1", "ContentQualification");
    public static final Attribute ACQUISITION_DURATION = of(0x00189073, VR.FD, "1", "AcquisitionDuration");
    public static final Attribute REFERENCED_DEFINED_PROTOCOL_SEQUENCE =
            of(0x0018990C, VR.SQ, "1", "ReferencedDefinedProtocolSequence");
    public static final Attribute REFERENCED_PERFORMED_PROTOCOL_SEQUENCE =
            of(0x0018990D, VR.SQ, "1", "ReferencedPerformedProtocolSequence");
    public static final Attribute CONTRIBUTING_EQUIPMENT_SEQUENCE =
            of(0x0018A001, VR.SQ, "1", "ContributingEquipmentSequence");
    public static final Attribute CONTRIBUTION_DATE_TIME = of(0x0018A002, VR.DT, "1", "ContributionDateTime");
    public static final Attribute CONTRIBUTION_DESCRIPTION = of(0x0018A003, VR.ST, "1", "ContributionDescription");
    public static final Attribute STUDY_INSTANCE_UID = of(0x0020000D, VR.UI, "1", "StudyInstanceUID");
    public static final Attribute SERIES_INSTANCE_UID = of(0x0020000E, VR.UI, "1", "SeriesInstanceUID");
    public static final Attribute STUDY_ID = of(0x00200010, VR.SH, "1", "StudyID");
    public static final Attribute SERIES_NUMBER = of(0x00200011, VR.IS, "1", "SeriesNumber");
    public static final Attribute ACQUISITION_NUMBER = of(0x00200012, VR.IS, "1", "AcquisitionNumber");
    public static final Attribute INSTANCE_NUMBER = of(0x00200013, VR.IS, "1", "InstanceNumber");
    public static final Attribute PATIENT_ORIENTATION = of(0x00200020, VR.CS, "2", "PatientOrientation");
    public static final Attribute LATERALITY = of(0x00200060, VR.CS, "1", "Laterality");
    public static final Attribute IMAGE_LATERALITY = of(0x00200062, VR.CS, "1", "ImageLaterality");
    public static final Attribute IMAGES_IN_ACQUISITION = of(0x00201002, VR.IS, "1", "ImagesInAcquisition");
    public static final Attribute NUMBER_OF_PATIENT_RELATED_STUDIES =
            of(0x00201200, VR.IS, "1", "NumberOfPatientRelatedStudies");
    public static final Attribute NUMBER_OF_STUDY_RELATED_SERIES =
            of(0x00201206, VR.IS, "1", "NumberOfStudyRelatedSeries");
    public static final Attribute NUMBER_OF_STUDY_RELATED_INSTANCES =
            of(0x00201208, VR.IS, "1", "NumberOfStudyRelatedInstances");
    public static final Attribute NUMBER_OF_SERIES_RELATED_INSTANCES =
            of(0x00201209, VR.IS, "1", "NumberOfSeriesRelatedInstances");
    public static final Attribute IMAGE_COMMENTS = of(0x00204000, VR.LT, "1", "ImageComments");
    public static final Attribute CONVERSION_SOURCE_ATTRIBUTES_SEQUENCE =
            of(0x00209172, VR.SQ, "1", "ConversionSourceAttributesSequence");
    public static final Attribute CHANNEL_DESCRIPTION_CODE_SEQUENCE =
            of(0x0022001A, VR.SQ, "1", "ChannelDescriptionCodeSequence");
    public static final Attribute SAMPLES_PER_PIXEL = of(0x00280002, VR.US, "1", "SamplesPerPixel");
    public static final Attribute PHOTOMETRIC_INTERPRETATION = of(0x00280004, VR.CS, "1", "PhotometricInterpretation");
    public static final Attribute PLANAR_CONFIGURATION = of(0x00280006, VR.US, "1", "PlanarConfiguration");
    public static final Attribute NUMBER_OF_FRAMES = of(0x00280008, VR.IS, "1", "NumberOfFrames");
    public static final Attribute ROWS = of(0x00280010, VR.US, "1", "Rows");
    public static final Attribute COLUMNS = of(0x00280011, VR.US, "1", "Columns");
    public static final Attribute PIXEL_SPACING = of(0x00280030, VR.DS, "2", "PixelSpacing");
    public static final Attribute PIXEL_ASPECT_RATIO = of(0x00280034, VR.IS, "2", "PixelAspectRatio");
    public static final Attribute BITS_ALLOCATED = of(0x00280100, VR.US, "1", "BitsAllocated");
    public static final Attribute BITS_STORED = of(0x00280101, VR.US, "1", "BitsStored");
    public static final Attribute HIGH_BIT = of(0x00280102, VR.US, "1", "HighBit");
    public static final Attribute PIXEL_REPRESENTATION = of(0x00280103, VR.US, "1", "PixelRepresentation");
    public static final Attribute SMALLEST_IMAGE_PIXEL_VALUE = of(0x00280106, VR.US, "1", "SmallestImagePixelValue");
    public static final Attribute LARGEST_IMAGE_PIXEL_VALUE = of(0x00280107, VR.US, "1", "LargestImagePixelValue");
    public static final Attribute SMALLEST_PIXEL_VALUE_IN_SERIES =
            of(0x00280108, VR.US, "1", "SmallestPixelValueInSeries");
    public static final Attribute LARGEST_PIXEL_VALUE_IN_SERIES =
            of(0x00280109, VR.US, "1", "LargestPixelValueInSeries");
    public static final Attribute PIXEL_PADDING_VALUE = of(0x00280120, VR.US, "1", "PixelPaddingValue");
    public static final Attribute PIXEL_PADDING_RANGE_LIMIT = of(0x00280121, VR.US, "1", "PixelPaddingRangeLimit");
    public static final Attribute QUALITY_CONTROL_IMAGE = of(0x00280300, VR.CS, "1", "QualityControlImage");
    public static final Attribute BURNED_IN_ANNOTATION = of(0x00280301, VR.CS, "1", "BurnedInAnnotation");
    public static final Attribute RECOGNIZABLE_VISUAL_FEATURES =
            of(0x00280302, VR.CS, "1", "RecognizableVisualFeatures");
    public static final Attribute LONGITUDINAL_TEMPORAL_INFORMATION_MODIFIED =
            of(0x00280303, VR.CS, "1", "LongitudinalTemporalInformationModified");
    public static final Attribute WINDOW_CENTER = of(0x00281050, VR.DS, "1-n", "WindowCenter");
    public static final Attribute WINDOW_WIDTH = of(0x00281051, VR.DS, "1-n", "WindowWidth");
    public static final Attribute RED_PALETTE_COLOR_LOOKUP_TABLE_DESCRIPTOR =
            of(0x00281101, VR.US, "3", "RedPaletteColorLookupTableDescriptor");
    public static final Attribute SPATIAL_LOCATIONS_PRESERVED = of(0x0028135A, VR.CS, "1", "SpatialLocationsPreserved");
    public static final Attribute ICC_PROFILE = of(0x00282000, VR.OB, "1", "ICCProfile");
    public static final Attribute COLOR_SPACE = of(0x00282002, VR.CS, "1", "ColorSpace");
    public static final Attribute LOSSY_IMAGE_COMPRESSION = of(0x00282110, VR.CS, "1", "LossyImageCompression");
    public static final Attribute LOSSY_IMAGE_COMPRESSION_RATIO =
            of(0x00282112, VR.DS, "1-n", "LossyImageCompressionRatio");
    public static final Attribute LOSSY_IMAGE_COMPRESSION_METHOD =
            of(0x00282114, VR.CS, "1-n", "LossyImageCompressionMethod");
    public static final Attribute PIXEL_DATA_PROVIDER_URL = of(0x00287FE0, VR.UR, "1", "PixelDataProviderURL");
    public static final Attribute REQUESTING_SERVICE = of(0x00321033, VR.LO, "1", "RequestingService");
    public static final Attribute REQUESTING_SERVICE_CODE_SEQUENCE =
            of(0x00321034, VR.SQ, "1", "RequestingServiceCodeSequence");
    public static final Attribute REQUESTED_PROCEDURE_DESCRIPTION =
            of(0x00321060, VR.LO, "1", "RequestedProcedureDescription");
    public static final Attribute REQUESTED_PROCEDURE_CODE_SEQUENCE =
            of(0x00321064, VR.SQ, "1", "RequestedProcedureCodeSequence");
    public static final Attribute REASON_FOR_VISIT = of(0x00321066, VR.UT, "1", "ReasonForVisit");
    public static final Attribute REASON_FOR_VISIT_CODE_SEQUENCE =
            of(0x00321067, VR.SQ, "1", "ReasonForVisitCodeSequence");
    public static final Attribute ADMISSION_ID = of(0x00380010, VR.LO, "1", "AdmissionID");
    public static final Attribute ISSUER_OF_ADMISSION_ID_SEQUENCE =
            of(0x00380014, VR.SQ, "1", "IssuerOfAdmissionIDSequence");
    public static final Attribute SERVICE_EPISODE_ID = of(0x00380060, VR.LO, "1", "ServiceEpisodeID");
    public static final Attribute SERVICE_EPISODE_DESCRIPTION = of(0x00380062, VR.LO, "1", "ServiceEpisodeDescription");
    public static final Attribute ISSUER_OF_SERVICE_EPISODE_ID_SEQUENCE =
            of(0x00380064, VR.SQ, "1", "IssuerOfServiceEpisodeIDSequence");
    public static final Attribute PATIENT_STATE = of(0x00380500, VR.LO, "1", "PatientState");
    public static final Attribute SCHEDULED_STATION_AE_TITLE = of(0x00400001, VR.AE, "1-n", "ScheduledStationAETitle");
    public static final Attribute SCHEDULED_PROCEDURE_STEP_START_DATE =
            of(0x00400002, VR.DA, "1", "ScheduledProcedureStepStartDate");
    public static final Attribute SCHEDULED_PROCEDURE_STEP_START_TIME =
            of(0x00400003, VR.TM, "1", "ScheduledProcedureStepStartTime");
    public static final Attribute SCHEDULED_PROCEDURE_STEP_DESCRIPTION =
            of(0x00400007, VR.LO, "1", "ScheduledProcedureStepDescription");
    public static final Attribute SCHEDULED_PROTOCOL_CODE_SEQUENCE =
            of(0x00400008, VR.SQ, "1", "ScheduledProtocolCodeSequence");
    public static final Attribute SCHEDULED_PROCEDURE_STEP_ID = of(0x00400009, VR.SH, "1", "ScheduledProcedureStepID");
    public static final Attribute LOCAL_NAMESPACE_ENTITY_ID = of(0x00400031, VR.UT, "1", "LocalNamespaceEntityID");
    public static final Attribute UNIVERSAL_ENTITY_ID = of(0x00400032, VR.UT, "1", "UniversalEntityID");
    public static final Attribute UNIVERSAL_ENTITY_ID_TYPE = of(0x00400033, VR.CS, "1", "UniversalEntityIDType");
    public static final Attribute IDENTIFIER_TYPE_CODE = of(0x00400035, VR.CS, "1", "IdentifierTypeCode");
    public static final Attribute SCHEDULED_PROCEDURE_STEP_SEQUENCE =
            of(0x00400100, VR.SQ, "1", "ScheduledProcedureStepSequence");
    public static final Attribute PERFORMED_PROCEDURE_STEP_START_DATE =
            of(0x00400244, VR.DA, "1", "PerformedProcedureStepStartDate");
    public static final Attribute PERFORMED_PROCEDURE_STEP_START_TIME =
            of(0x00400245, VR.TM, "1", "PerformedProcedureStepStartTime");
    public static final Attribute PERFORMED_PROCEDURE_STEP_END_DATE =
            of(0x00400250, VR.DA, "1", "PerformedProcedureStepEndDate");
    public static final Attribute PERFORMED_PROCEDURE_STEP_END_TIME =
            of(0x00400251, VR.TM, "1", "PerformedProcedureStepEndTime");
    public static final Attribute PERFORMED_PROCEDURE_STEP_STATUS =
            of(0x00400252, VR.CS, "1", "PerformedProcedureStepStatus");
    public static final Attribute PERFORMED_PROCEDURE_STEP_ID = of(0x00400253, VR.SH, "1", "PerformedProcedureStepID");
    public static final Attribute PERFORMED_PROCEDURE_STEP_DESCRIPTION =
            of(0x00400254, VR.LO, "1", "PerformedProcedureStepDescription");
    public static final Attribute PERFORMED_PROTOCOL_CODE_SEQUENCE =
            of(0x00400260, VR.SQ, "1", "PerformedProtocolCodeSequence");
    public static final Attribute REQUEST_ATTRIBUTES_SEQUENCE = of(0x00400275, VR.SQ, "1", "RequestAttributesSequence");
    public static final Attribute COMMENTS_ON_THE_PERFORMED_PROCEDURE_STEP =
            of(0x00400280, VR.ST, "1", "CommentsOnThePerformedProcedureStep");
    public static final Attribute CONTAINER_IDENTIFIER = of(0x00400512, VR.LO, "1", "ContainerIdentifier");
    public static final Attribute ACQUISITION_CONTEXT_SEQUENCE =
            of(0x00400555, VR.SQ, "1", "AcquisitionContextSequence");
    public static final Attribute ACQUISITION_CONTEXT_DESCRIPTION =
            of(0x00400556, VR.ST, "1", "AcquisitionContextDescription");
    public static final Attribute SPECIMEN_DESCRIPTION_SEQUENCE =
            of(0x00400560, VR.SQ, "1", "SpecimenDescriptionSequence");
    public static final Attribute REQUESTED_PROCEDURE_ID = of(0x00401001, VR.SH, "1", "RequestedProcedureID");
    public static final Attribute REASON_FOR_PERFORMED_PROCEDURE_CODE_SEQUENCE =
            of(0x00401012, VR.SQ, "1", "ReasonForPerformedProcedureCodeSequence");
    public static final Attribute PERSON_IDENTIFICATION_CODE_SEQUENCE =
            of(0x00401101, VR.SQ, "1", "PersonIdentificationCodeSequence");
    public static final Attribute REAL_WORLD_VALUE_MAPPING_SEQUENCE =
            of(0x00409096, VR.SQ, "1", "RealWorldValueMappingSequence");
    public static final Attribute RELATIONSHIP_TYPE = of(0x0040A010, VR.CS, "1", "RelationshipType");
    public static final Attribute VALUE_TYPE = of(0x0040A040, VR.CS, "1", "ValueType");
    public static final Attribute CONCEPT_NAME_CODE_SEQUENCE = of(0x0040A043, VR.SQ, "1", "ConceptNameCodeSequence");
    public static final Attribute CONTINUITY_OF_CONTENT = of(0x0040A050, VR.CS, "1", "ContinuityOfContent");
    public static final Attribute TEXT_VALUE = of(0x0040A160, VR.UT, "1", "TextValue");
    public static final Attribute CONCEPT_CODE_SEQUENCE = of(0x0040A168, VR.SQ, "1", "ConceptCodeSequence");
    public static final Attribute PURPOSE_OF_REFERENCE_CODE_SEQUENCE =
            of(0x0040A170, VR.SQ, "1", "PurposeOfReferenceCodeSequence");
    public static final Attribute NUMERIC_VALUE = of(0x0040A30A, VR.DS, "1-n", "NumericValue");
    public static final Attribute CURRENT_REQUESTED_PROCEDURE_EVIDENCE_SEQUENCE =
            of(0x0040A375, VR.SQ, "1", "CurrentRequestedProcedureEvidenceSequence");
    public static final Attribute HL7_STRUCTURED_DOCUMENT_REFERENCE_SEQUENCE =
            of(0x0040A390, VR.SQ, "1", "HL7StructuredDocumentReferenceSequence");
    public static final Attribute CONTENT_TEMPLATE_SEQUENCE = of(0x0040A504, VR.SQ, "1", "ContentTemplateSequence");
    public static final Attribute CONTENT_SEQUENCE = of(0x0040A730, VR.SQ, "1", "ContentSequence");
    public static final Attribute TEMPLATE_IDENTIFIER = of(0x0040DB00, VR.CS, "1", "TemplateIdentifier");
    public static final Attribute SOURCE_INSTANCE_SEQUENCE = of(0x00420013, VR.SQ, "1", "SourceInstanceSequence");
    public static final Attribute ICON_IMAGE_SEQUENCE = of(0x00880200, VR.SQ, "1", "IconImageSequence");
    public static final Attribute SOP_INSTANCE_STATUS = of(0x01000410, VR.CS, "1", "SOPInstanceStatus");
    public static final Attribute SOP_AUTHORIZATION_DATE_TIME = of(0x01000420, VR.DT, "1", "SOPAuthorizationDateTime");
    public static final Attribute SOP_AUTHORIZATION_COMMENT = of(0x01000424, VR.LT, "1", "SOPAuthorizationComment");
    public static final Attribute AUTHORIZATION_EQUIPMENT_CERTIFICATION_NUMBER =
            of(0x01000426, VR.LO, "1", "AuthorizationEquipmentCertificationNumber");
    public static final Attribute ENCRYPTED_ATTRIBUTES_SEQUENCE =
            of(0x04000500, VR.SQ, "1", "EncryptedAttributesSequence");
    public static final Attribute ORIGINAL_ATTRIBUTES_SEQUENCE =
            of(0x04000561, VR.SQ, "1", "OriginalAttributesSequence");
    public static final Attribute INSTANCE_ORIGIN_STATUS = of(0x04000600, VR.CS, "1", "InstanceOriginStatus");
    public static final Attribute PRESENTATION_LUT_SHAPE = of(0x20500020, VR.CS, "1", "PresentationLUTShape");
    public static final Attribute BARCODE_VALUE = of(0x22000005, VR.LT, "1", "BarcodeValue");
    public static final Attribute TREATMENT_SESSION_UID = of(0x300A0700, VR.UI, "1", "TreatmentSessionUID");
    public static final Attribute MAC_PARAMETERS_SEQUENCE = of(0x4FFE0001, VR.SQ, "1", "MACParametersSequence");
    public static final Attribute EXTENDED_OFFSET_TABLE = of(0x7FE00001, VR.OV, "1", "ExtendedOffsetTable");
    public static final Attribute EXTENDED_OFFSET_TABLE_LENGTHS =
            of(0x7FE00002, VR.OV, "1", "ExtendedOffsetTableLengths");
    public static final Attribute ENCAPSULATED_PIXEL_DATA_VALUE_TOTAL_LENGTH =
            of(0x7FE00003, VR.UV, "1", "EncapsulatedPixelDataValueTotalLength");
    public static final Attribute PIXEL_DATA = of(0x7FE00010, VR.OB, "1", "PixelData");
    public static final Attribute DIGITAL_SIGNATURES_SEQUENCE = of(0xFFFAFFFA, VR.SQ, "1", "DigitalSignaturesSequence");

    private Attributes() {}

    private static Attribute of(int tag, VR vr, String multiplicity, String keyword) {
        return new Attribute(new Tag(tag), vr, Multiplicity.parse(multiplicity), keyword);
    }
}
